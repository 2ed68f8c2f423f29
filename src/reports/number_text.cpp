#include "reports/number_text.h"

#include <cassert>

#include "base/decimal.h"
#include "base/text.h"

namespace benchwarden::reports {
namespace {

constexpr std::string_view kMinus = "\u2212";

/// The digits of the magnitude, with at least one before the places.
std::string digits_of(std::int64_t millionths, int places) {
  assert(places >= 0 && places <= kPlacesMax);
  const std::uint64_t magnitude = millionths < 0 ? 0 - static_cast<std::uint64_t>(millionths)
                                                 : static_cast<std::uint64_t>(millionths);
  std::string digits = std::to_string(magnitude);
  if (digits.size() <= kPlacesMax) digits.insert(0, kPlacesMax + 1 - digits.size(), '0');
  const std::size_t dropped = static_cast<std::size_t>(kPlacesMax - places);
  assert(digits.find_first_not_of('0', digits.size() - dropped) == std::string::npos);
  return digits.substr(0, digits.size() - dropped);
}

}  // namespace

int places_needed(std::int64_t millionths, int at_least) {
  int places = kPlacesMax;
  while (places > at_least && millionths % 10 == 0) {
    millionths /= 10;
    --places;
  }
  return places;
}

std::string number_text(std::int64_t millionths, int places) {
  const std::string digits = digits_of(millionths, places);
  const std::string_view all = digits;
  const std::size_t whole = digits.size() - static_cast<std::size_t>(places);
  std::string text = millionths < 0 ? std::string(kMinus) : std::string();
  text += base::grouped_digits(all.substr(0, whole));
  if (places > 0) text += "." + digits.substr(whole);
  return text;
}

std::string plain_number(std::int64_t millionths, int places) {
  std::string digits = digits_of(millionths, places);
  if (places > 0) digits.insert(digits.size() - static_cast<std::size_t>(places), 1, '.');
  return millionths < 0 ? "-" + digits : digits;
}

std::string count_text(std::uint64_t count) { return base::grouped_digits(std::to_string(count)); }

std::int64_t to_thousandth(std::int64_t millionths) {
  return base::divide_round_half_away(millionths, 1'000) * 1'000;
}

std::int64_t to_printed(std::int64_t millionths) {
  constexpr std::int64_t kStep = 100;  // millionths in the last place of kPrintedPlacesMax
  return base::divide_round_half_away(millionths, kStep) * kStep;
}

}  // namespace benchwarden::reports
