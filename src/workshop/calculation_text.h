#pragma once

#include <string>
#include <string_view>

#include "calculations/values.h"
#include "forms/calculation_form.h"

namespace benchwarden::workshop {

/// The shortest text that reads back as the same number, without an exponent where that is short.
std::string plain_number(double value);
/// Rounded to so many significant digits; trailing zeros are kept, since they say how exact.
std::string rounded_number(double value, int digits);

/// A value for people. Codes by their words; long lists by their length and sum.
std::string value_text(const calculations::Value& value, int digits,
                       const std::vector<forms::CodeOption>& words);

/// What a choice of an input is called: its words, or the symbol of the unit that it is; "" when it
/// has neither.
std::string choice_label(const forms::CalculationInput& input, std::string_view code);

/// At most 60 bytes of what somebody wrote, cut before a character, for a sentence.
std::string shortened(const std::string& text);

}  // namespace benchwarden::workshop
