#include "rules/filling.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace benchwarden::rules {
namespace {

using base::CivilDate;
using tallies::EventKind;

/// Smallest units in a litre or a kilogram; the forecast is the same for both.
constexpr double kSmallestInOne = 1e6;
constexpr double kDaysMax = 36525;

bool came_in(const tallies::Event& event) {
  return event.acts && event.amount > 0 &&
         (event.kind == EventKind::kAdded || event.kind == EventKind::kMovedIn);
}

/// Litres or kilograms of each day up to yesterday, oldest first.
std::vector<double> daily_of(const Scene& scene, const std::string& container) {
  const CivilDate from = base::add_days(scene.today(), -kFillHistoryDays);
  const base::Instant start = scene.zone().start_of(from);
  const base::Instant end = scene.zone().start_of(scene.today());
  const tallies::Timeline& timeline = scene.state().timeline(container);
  const auto& events = timeline.events();
  const auto first = std::find_if(events.begin(), events.end(), came_in);
  if (first == events.end() || first->at >= end) return {};
  const CivilDate begins = std::max(from, scene.day_of(first->at));
  const int count = base::days_between(begins, scene.today());
  std::vector<double> daily(static_cast<std::size_t>(count), 0);
  const std::size_t last = timeline.count_before(end);
  for (std::size_t i = timeline.count_before(start); i < last; ++i) {
    if (!came_in(events[i])) continue;
    const int day = base::days_between(begins, scene.day_of(events[i].at));
    daily.at(static_cast<std::size_t>(day)) +=
        static_cast<double>(events[i].amount) / kSmallestInOne;
  }
  return daily;
}

std::optional<CivilDate> day_after(CivilDate today, std::optional<double> days,
                                   double (*whole)(double)) {
  if (!days || !(*days >= 0 && *days < kDaysMax)) return std::nullopt;
  return calculations::days_after(today, static_cast<int>(whole(*days)));
}

double down(double days) { return std::floor(days); }
double up(double days) { return std::ceil(days); }

NoForecast why_none(const tallies::Level& level) {
  if (level.retired) return NoForecast::kRetired;
  if (level.sealed) return NoForecast::kSealed;
  if (level.working_limit == 0) return NoForecast::kNoLimit;
  return level.amount >= level.working_limit ? NoForecast::kAtLimit : NoForecast::kNone;
}

NoForecast why_refused(const calculations::Refusal& refusal) {
  if (refusal.code != calculations::RefusalCode::kTooFew) return NoForecast::kOutOfRange;
  return refusal.name == "daily_l" ? NoForecast::kTooFewDays : NoForecast::kTooFewAdditions;
}

}  // namespace

std::string_view says_of(NoForecast why) {
  constexpr std::array<std::string_view, 9> kSays{"",
                                                  "no-forecast-retired",
                                                  "no-forecast-sealed",
                                                  "no-forecast-no-limit",
                                                  "no-forecast-at-limit",
                                                  "no-forecast-too-few-days",
                                                  "no-forecast-too-few-additions",
                                                  "no-forecast-out-of-range",
                                                  "no-forecast-too-far"};
  return kSays.at(static_cast<std::size_t>(why));
}

std::string_view code_of(NoForecast why) {
  constexpr std::string_view kPrefix = "no-forecast-";
  return why == NoForecast::kNone ? std::string_view() : says_of(why).substr(kPrefix.size());
}

Filling filling_of(const Scene& scene, const tallies::Level& level) {
  Filling filling;
  filling.none = why_none(level);
  if (filling.none != NoForecast::kNone) return filling;
  const std::vector<double> daily = daily_of(scene, level.container);
  const double remaining = static_cast<double>(level.working_limit - level.amount) / kSmallestInOne;
  const auto found = calculations::fill_forecast(daily, remaining);
  if (!found) {
    filling.none = why_refused(found.error());
    return filling;
  }
  const CivilDate today = scene.today();
  filling.earliest_95 = day_after(today, found->earliest_95, down);
  if (!filling.earliest_95) {
    filling.none = NoForecast::kTooFar;
    return filling;
  }
  filling.earliest_80 = day_after(today, found->earliest_80, down);
  filling.median = day_after(today, found->median, up);
  filling.latest_80 = day_after(today, found->latest_80, up);
  filling.latest_95 = day_after(today, found->latest_95, up);
  filling.per_day = found->rate.mean_l_per_day * kSmallestInOne;
  filling.rate_change = found->rate_change;
  return filling;
}

}  // namespace benchwarden::rules
