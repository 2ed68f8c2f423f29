#include "access/pin_rules.h"

#include <algorithm>
#include <set>

#include "base/text.h"

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

base::Status<> check_passphrase(std::string_view passphrase) {
  // Length as in NIST SP 800-63B, section 5.1.1, and above; the five are common practice, no
  // source.
  constexpr std::size_t kShortest = 12;
  constexpr std::size_t kLongest = 128;
  constexpr std::size_t kDifferent = 5;
  if (!base::is_valid_utf8(passphrase) || base::hidden_sign(passphrase)) {
    return base::Error{base::ErrorCode::kInvalid, "a passphrase has signs only that can be seen"};
  }
  const std::size_t length = base::count_code_points(passphrase);
  if (length < kShortest || length > kLongest) {
    return base::Error{base::ErrorCode::kInvalid, "a passphrase has 12 to 128 characters"};
  }
  if (std::set<char>(passphrase.begin(), passphrase.end()).size() < kDifferent) {
    return base::Error{base::ErrorCode::kInvalid,
                       "a passphrase has five different characters or more"};
  }
  return base::Done{};
}

}  // namespace benchwarden::access
