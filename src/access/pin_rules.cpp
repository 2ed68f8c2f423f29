#include "access/pin_rules.h"

#include <algorithm>

namespace benchwarden::access {
namespace {

/// Every digit is its neighbour plus `step`, modulo ten.
bool steps_by(std::string_view digits, int step) {
  for (std::size_t i = 1; i < digits.size(); ++i) {
    if ((digits[i - 1] - '0' + step) % 10 != digits[i] - '0') return false;
  }
  return true;
}

}  // namespace

base::Status<> check_pin(std::string_view pin) {
  const bool digits =
      std::all_of(pin.begin(), pin.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (!digits || pin.size() < 6 || pin.size() > 12) {
    return base::Error{base::ErrorCode::kInvalid, "a PIN has 6 to 12 digits"};
  }
  if (steps_by(pin, 0)) {
    return base::Error{base::ErrorCode::kInvalid, "a PIN has more than one digit in it"};
  }
  if (steps_by(pin, 1) || steps_by(pin, 9)) {
    return base::Error{base::ErrorCode::kInvalid, "a PIN does not count up or down"};
  }
  return base::Done{};
}

}  // namespace benchwarden::access
