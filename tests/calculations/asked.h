#pragma once

#include <gtest/gtest.h>

#include <map>
#include <string>
#include <string_view>

#include "calculations/calculator.h"

namespace benchwarden::calculations {

using NamedInputs = std::map<std::string, Value, std::less<>>;

/// The first refusal of a calculation; the test fails where it is answered.
inline Refusal refusal(std::string_view calculation, const NamedInputs& inputs) {
  const auto found = calculate(*find_calculator(calculation), inputs);
  if (!found) return found.error().front();
  ADD_FAILURE() << "was answered";
  return {};
}

}  // namespace benchwarden::calculations
