#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/civil_date.h"
#include "base/result.h"
#include "reports/waste_month.h"
#include "workshop/ports.h"

// The closing of a month: the manager signs its figures, which are told by their digest and by the
// size of the book they stand on.

namespace benchwarden::workshop {

/// What the entry says that closed a month and stands.
struct Closing {
  std::uint64_t seq = 0;
  /// The entries before it where it says none, and never more than those.
  std::uint64_t book_size = 0;
  std::string digest;  ///< "" where it says none
};
/// None while the month is open. `without`: the number of an entry to be left out, 0 for none.
std::optional<Closing> closing_in(const tallies::State& state, base::CivilMonth month,
                                  std::uint64_t without = 0);

/// The month the book begins in: that of its first entry, or the first one before it in which
/// something happened to a container.
base::CivilMonth begins_in(const Ports& ports, const tallies::State& state);
/// The month in which something happened to a container first; none before that.
std::optional<base::CivilMonth> first_month(const tallies::State& state);

/// The state by the book of that size. Errors: those of the book.
base::Result<tallies::State> state_at(const Ports& ports, std::uint64_t book_size);

/// The sums of a month as the state has them, and as far as the state reaches.
reports::WasteMonthFigures sums_of(const tallies::State& state, base::CivilMonth month);

/// Whether the figures of the month are still those that were signed: by the digest, or, of a
/// closing that says none, by those of the book it stands on. Errors: those of the book.
base::Result<bool> holds_as_signed(const Ports& ports, const tallies::State& state,
                                   base::CivilMonth month, const Closing& closing);

/// What is said about the figures, as corrected in a book of `size`; "" for nothing. The tallies
/// keep no statements. Errors: those of the book.
base::Result<std::string> statement_of(const Ports& ports, const entries::Entry& closing,
                                       std::uint64_t size);

/// The closing that stands with the figures that were signed. Where the month's figures are others
/// by now, the book is folded again up to the size that was signed. Errors: those of the book.
base::Result<std::optional<reports::MonthClosing>> month_closing(const Ports& ports,
                                                                 const tallies::State& state,
                                                                 base::CivilMonth month);

}  // namespace benchwarden::workshop
