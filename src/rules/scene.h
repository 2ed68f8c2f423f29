#pragma once

#include <functional>
#include <optional>
#include <string_view>
#include <vector>

#include "base/timestamp.h"
#include "base/zone.h"
#include "calculations/due_date.h"
#include "findings/finding.h"
#include "rules/rule.h"
#include "tallies/state.h"

namespace benchwarden::rules {

/// What the rules are judged by: the state of the book at one moment, in the workshop's zone.
class Scene {
 public:
  Scene(const tallies::State& state, base::Instant now, base::Zone zone);

  [[nodiscard]] const tallies::State& state() const { return state_; }
  [[nodiscard]] base::Instant now() const { return now_; }
  [[nodiscard]] const base::Zone& zone() const { return zone_; }
  [[nodiscard]] base::CivilDate today() const { return today_; }
  /// The days the workshop is open; all of them where none was entered.
  [[nodiscard]] const calculations::OpeningDays& opening() const { return opening_; }
  [[nodiscard]] base::CivilDate day_of(base::Instant at) const { return zone_.date_of(at); }
  /// When a limit whose last day is `day` is passed.
  [[nodiscard]] base::Instant after(base::CivilDate day) const;

  /// Whether the rule's conditions hold for this subject.
  [[nodiscard]] bool applies(const Rule& rule, const findings::Subject& subject) const;
  /// The things of a class that are not retired and that the rule applies to.
  [[nodiscard]] std::vector<findings::Subject> subjects(const Rule& rule,
                                                        std::string_view thing_class) const;
  [[nodiscard]] const entries::Fields& attributes(const findings::Subject& subject) const;
  /// Those of the stream of a container, or of a stream itself; none of anything else.
  [[nodiscard]] const entries::Fields& stream_of(const findings::Subject& subject) const;
  [[nodiscard]] const entries::Fields& workshop() const;
  /// The last record of a kind about a subject that stands and had happened by now.
  [[nodiscard]] const tallies::Record* last(const findings::Subject& subject,
                                            std::string_view kind) const;

  /// `figure` (unit "d", "months" or "years") after `day`, by the rule's count of days; the last
  /// day of the calendar where it lies beyond it.
  [[nodiscard]] base::CivilDate later(const Rule& rule, std::string_view figure,
                                      base::CivilDate day) const;

 private:
  const tallies::State& state_;
  base::Instant now_;
  base::Zone zone_;
  base::CivilDate today_;
  calculations::OpeningDays opening_;
};

/// When what a rule finds begins: from the day `warn_days` before the last day on it is due, from
/// the day after it on it is over. A due item in any case; its finding once it is near.
struct Deadline {
  findings::Subject subject;
  std::string says;
  base::CivilDate day;  ///< the last day on which it is in time
  findings::Values values;
  std::vector<std::uint64_t> entries;
};
void judge_deadline(const Rule& rule, const Scene& scene, Deadline deadline,
                    findings::Judgement& said);

/// The span of days a rule warns before its last day: its figure "warn" (unit "d"), else none.
int warn_days(const Rule& rule);

}  // namespace benchwarden::rules
