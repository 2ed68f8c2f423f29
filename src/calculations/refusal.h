#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.h"

namespace benchwarden::calculations {

/// Why a calculation gives no result. A calculation never extrapolates silently and never answers
/// with something that is not a number.
enum class RefusalCode {
  kMissing,        ///< an input is needed
  kUnknownInput,   ///< no input of that name
  kWrongType,      ///< a number where a list is expected, and the like
  kUnknownCode,    ///< none of the choices
  kOutOfRange,     ///< outside [low, high]
  kTooFew,         ///< fewer values than `low`
  kTooMany,        ///< more values than `high`
  kUnequalLists,   ///< a list that must be as long as another has another length
  kNoSolution,     ///< the inputs contradict each other, or determine nothing
  kNotWhole,       ///< a whole number is needed
  kContradicts,    ///< within its range, but not with the other inputs
  kAfterJudged,    ///< a day after the day to judge
  kAfterCalendar,  ///< the day asked for lies after the year 9999, the last of base::CivilDate
};

/// `name` is the input, or a quantity inside the calculation that has a label in
/// forms/wording/calculations.toml, with its unit at its end. `low` and `high` are what would be
/// accepted, in that unit, where there is such a range.
struct Refusal {
  RefusalCode code = RefusalCode::kOutOfRange;
  std::string name;
  double value = 0;
  double low = 0;
  double high = 0;
};
using Refusals = std::vector<Refusal>;

/// "out_of_range": what the API answers, and the key of the sentence.
std::string_view refusal_key(RefusalCode code);
/// Every key, in the order of the codes.
std::vector<std::string_view> all_refusal_keys();

template <class T>
using Outcome = base::Result<T, Refusal>;

/// Nothing when low <= value <= high; else, also for NaN, the refusal.
inline base::Status<Refusal> within(std::string name, double value, double low, double high) {
  if (value >= low && value <= high) return base::Done{};
  return Refusal{RefusalCode::kOutOfRange, std::move(name), value, low, high};
}

}  // namespace benchwarden::calculations
