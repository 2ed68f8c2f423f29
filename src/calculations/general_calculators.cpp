#include <cmath>

#include "calculations/calculator_groups.h"
#include "calculations/due_date.h"
#include "calculations/line_fit.h"
#include "quantities/converted.h"

namespace benchwarden::calculations {
namespace {

constexpr double kAny = 1e15;

Outcome<Values> unit(const Inputs& in) {
  const quantities::Unit* from = quantities::find_unit(in.code("from"));
  const quantities::Unit* to = quantities::find_unit(in.code("to"));
  assert(from != nullptr && to != nullptr);  // the rule lets no other code through
  if (from->dimension != to->dimension) return Refusal{RefusalCode::kNoSolution, "to"};
  if (from->dimension == quantities::Dimension::kTemperature) {
    const double zero = quantities::converted(0, *quantities::find_unit("k"), *from);
    if (const auto fits = within("value", in.number("value"), zero, kAny); !fits) {
      return fits.error();
    }
  }
  return Values{{"converted", quantities::converted(in.number("value"), *from, *to)}};
}

Outcome<Values> line(const Inputs& in) {
  const auto fit = fit_line(in.list("x"), in.list("y"));
  if (!fit) return fit.error();
  Values values{
      {"intercept", fit->intercept},       {"slope", fit->slope},
      {"intercept_sd", fit->intercept_sd}, {"slope_sd", fit->slope_sd},
      {"residual_sd", fit->residual_sd},   {"degrees_of_freedom", fit->degrees_of_freedom()}};
  if (const auto at = in.maybe_number("at_x")) {
    constexpr double kPercent = 100;
    const double level = in.number("level_percent") / kPercent;
    const Interval mean = confidence_interval(*fit, *at, level);
    const Interval next = prediction_interval(*fit, *at, level);
    values.insert(values.end(), {{"fitted", fit->at(*at)},
                                 {"confidence_low", mean.low},
                                 {"confidence_high", mean.high},
                                 {"prediction_low", next.low},
                                 {"prediction_high", next.high}});
  }
  return values;
}

Outcome<int> whole(const Inputs& in, const char* name) {
  const double number = in.number(name);
  if (number != std::floor(number)) return Refusal{RefusalCode::kNotWhole, name, number};
  return static_cast<int>(number);
}

Outcome<Values> due_date(const Inputs& in) {
  const auto months = whole(in, "interval_months");
  if (!months) return months.error();
  const auto due = add_months(in.date("from_date"), *months);
  if (!due) return Refusal{RefusalCode::kAfterCalendar, "from_date"};
  return Values{{"due_date", *due}};
}

std::string stamp_code(StampState state) {
  switch (state) {
    case StampState::kCurrent:
      return "current";
    case StampState::kEmptyThenTest:
      return "use-until-empty-then-test";
    case StampState::kTestBeforeFill:
      break;
  }
  return "test-before-filling";
}

Outcome<Values> stamp(const Inputs& in) {
  const base::CivilDate today = in.date("today_date");
  const base::CivilDate tested = base::first_day(base::month_of(in.date("last_test_date")));
  auto filled = in.maybe_date("filled_date");
  if (in.date("last_test_date") > today) {
    return Refusal{RefusalCode::kAfterJudged, "last_test_date"};
  }
  if (filled && *filled > today) return Refusal{RefusalCode::kAfterJudged, "filled_date"};
  // A cylinder is emptied for its test: what was filled before is not what it holds.
  if (filled && *filled < tested) filled.reset();
  const auto years = whole(in, "interval_years");
  if (!years) return years.error();
  const auto due = stamp_due(base::month_of(tested), *years);
  if (!due) return Refusal{RefusalCode::kAfterCalendar, "last_test_date"};
  const StampState state = stamp_state(*due, today, filled);
  return Values{{"last_day_in_date", base::last_day(*due)}, {"stamp", stamp_code(state)}};
}

std::vector<std::string_view> unit_ids() {
  std::vector<std::string_view> ids;
  for (const quantities::Unit& one : quantities::all_units()) ids.push_back(one.id);
  return ids;
}

}  // namespace

std::vector<Calculator> general_calculators() {
  return {
      {"unit",
       {number_input("value", -kAny, kAny), code_input("from", unit_ids()),
        code_input("to", unit_ids())},
       unit},
      {"line-fit",
       {list_input("x", -kAny, kAny, 3, 10000), list_input("y", -kAny, kAny, 3, 10000),
        optional(number_input("at_x", -kAny, kAny)), number_input("level_percent", 1, 99.9)},
       line},
      {"due-date", {date_input("from_date"), number_input("interval_months", 0, 1200)}, due_date},
      {"cylinder-stamp",
       {month_input("last_test_date"), number_input("interval_years", 1, 20),
        date_input("today_date"), optional(date_input("filled_date"))},
       stamp},
  };
}

}  // namespace benchwarden::calculations
