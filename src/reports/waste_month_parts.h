#pragma once

#include <map>
#include <vector>

#include "reports/waste_month.h"

namespace benchwarden::reports {

/// A month on the clock, or several: [from, until) counts; `end` is where they end themselves.
struct Month {
  base::Zone zone;
  base::Instant from;
  base::Instant until;
  base::Instant end;
  base::Instant as_of;
  const tallies::Claims& claims;  ///< of the state; must outlive it
};

/// `as_of` counts still; every later moment does not.
Month on_the_clock(const tallies::State& state, const base::Zone& zone, base::CivilMonth first,
                   base::CivilMonth last, base::Instant as_of);
MonthState state_of(const Month& month);

using EntriesBySeq = std::map<std::uint64_t, const RecordedEntry*>;

/// Those that occurred in the month, without corrections.
EntriesBySeq entries_in(const std::vector<RecordedEntry>& entries, const Month& month);

std::vector<CollectedFigures> collected_in(const tallies::State& state, const Month& month);
std::vector<OpenDocument> open_documents_of(const tallies::State& state, const Month& month);
/// What of the month's waste and of the logs at its end calls for a look.
void tell_concerns(QualityFigures& quality, const WasteMonthInput& input,
                   const EntriesBySeq& entries, const Month& month);
QualityFigures quality_of(const EntriesBySeq& entries, const tallies::State& state,
                          const Month& month);
std::vector<RegisterFigures> register_changes_after(const std::vector<RecordedEntry>& entries,
                                                    const Month& month);
std::vector<EffectFigures> effects_in(const tallies::State& state, const EntriesBySeq& entries,
                                      const Month& month);

/// What the charts show.
void tell_courses(WasteMonthFigures& figures, const WasteMonthInput& input, const Month& month);

}  // namespace benchwarden::reports
