#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace benchwarden::reports {

/// Numbers of a report are whole millionths of the unit they are printed in: microlitres of a
/// litre, milligrams of a kilogram. A number that needs more places than its column has by rule
/// makes the whole column wider, up to kPrintedPlacesMax; finer ones are rounded on paper, while
/// the figures for machines stay exact.
inline constexpr int kPlacesMax = 6;
inline constexpr int kPrintedPlacesMax = 4;  ///< a tenth of a millilitre, so that a page holds it

/// The places `millionths` needs to be printed exactly, not fewer than `at_least` (0 … 6).
int places_needed(std::int64_t millionths, int at_least);

/// For people: narrow no-break spaces between thousands, a true minus sign. `places` must be
/// enough to print exactly; asserted.
std::string number_text(std::int64_t millionths, int places);

/// For machines: "-1234.500".
std::string plain_number(std::int64_t millionths, int places);

/// Whole numbers (entry numbers, book sizes) for people.
std::string count_text(std::uint64_t count);

/// Rounded to the thousandth (of the same unit), ties away from zero.
std::int64_t to_thousandth(std::int64_t millionths);
/// Rounded to kPrintedPlacesMax places, ties away from zero.
std::int64_t to_printed(std::int64_t millionths);

}  // namespace benchwarden::reports
