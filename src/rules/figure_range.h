#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/decimal.h"

namespace benchwarden::rules {

/// What a figure of a rule may be, in its unit. The bounds catch slips of the hand and keep every
/// judgement short; they say nothing about what a law may ask for: common practice, no source.
struct FigureRange {
  std::int64_t lowest = 0;
  std::int64_t highest = 0;
  bool whole = false;
};

/// By the unit alone, for figures whose kind says nothing else.
FigureRange range_of_unit(std::string_view unit);
bool is_in(const FigureRange& range, base::Decimal value);
/// "a whole number from 1 to 120", for faults.
std::string describe(const FigureRange& range);

}  // namespace benchwarden::rules
