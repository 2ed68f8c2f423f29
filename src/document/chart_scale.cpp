#include "document/chart_scale.h"

#include <algorithm>
#include <array>
#include <cassert>

#include "base/civil_date.h"
#include "base/timestamp.h"

namespace benchwarden::document {
namespace {

constexpr std::int64_t kTicksMax = 8;
constexpr base::CivilDate kEpoch{1970, 1, 1};

std::int64_t floor_div(std::int64_t dividend, std::int64_t divisor) {
  const std::int64_t quotient = dividend / divisor;
  return dividend % divisor < 0 ? quotient - 1 : quotient;
}

/// 1, 2 or 5 times a power of ten, so that `span` has at most six steps.
std::int64_t round_step(std::int64_t span) {
  constexpr std::array<std::int64_t, 3> kSteps{1, 2, 5};
  constexpr std::int64_t kStepsMax = 6;
  for (std::int64_t power = 1;; power *= 10) {
    for (const std::int64_t step : kSteps) {
      if (span <= step * power * kStepsMax) return step * power;
    }
  }
}

int places_of(std::int64_t step) {
  if (step % 1000 == 0) return 0;
  if (step % 100 == 0) return 1;
  return step % 10 == 0 ? 2 : 3;
}

std::string number_label(std::int64_t thousandths, int places) {
  const std::int64_t size = thousandths < 0 ? -thousandths : thousandths;
  std::string digits = std::to_string(1000 + size % 1000).substr(1);
  digits.resize(static_cast<std::size_t>(places));
  return (thousandths < 0 ? "\u2212" : "") + std::to_string(size / 1000) +
         (places == 0 ? "" : "." + digits);
}

base::CivilDate day_at(std::int64_t time_ms) {
  return base::add_days(kEpoch, static_cast<int>(floor_div(time_ms, base::kDayMs)));
}
std::int64_t start_of(base::CivilDate day) {
  return std::int64_t{base::days_between(kEpoch, day)} * base::kDayMs;
}

void add_days(ChartScale& scale, int step) {
  base::CivilDate day = day_at(scale.low);
  if (start_of(day) < scale.low) day = base::add_days(day, 1);
  for (; start_of(day) <= scale.high && day < base::kLastDay; day = base::add_days(day, step)) {
    scale.ticks.push_back({start_of(day), base::format_date(day)});
  }
}

void add_months(ChartScale& scale, int step) {
  base::CivilMonth month = base::month_of(day_at(scale.low));
  const auto first_day = [](base::CivilMonth at) {
    return start_of(base::CivilDate{at.year, at.month, 1});
  };
  while (first_day(month) < scale.low || (month.month - 1) % std::min(step, 12) != 0 ||
         (step > 12 && month.year % (step / 12) != 0)) {
    month = base::next_month(month);
  }
  while (first_day(month) <= scale.high) {
    scale.ticks.push_back({first_day(month), base::format_month(month)});
    for (int i = 0; i < step; ++i) month = base::next_month(month);
  }
}

}  // namespace

ChartScale value_scale(std::int64_t low, std::int64_t high) {
  assert(low <= high);
  const std::int64_t step = round_step(std::max<std::int64_t>(high - low, 6));
  ChartScale scale;
  scale.low = floor_div(low, step) * step;
  scale.high = -floor_div(-high, step) * step;
  if (scale.high == scale.low) scale.high += step;
  for (std::int64_t at = scale.low; at <= scale.high; at += step) {
    scale.ticks.push_back({at, number_label(at, places_of(step))});
  }
  return scale;
}

ChartScale time_scale(std::int64_t low, std::int64_t high) {
  assert(low <= high);
  constexpr std::int64_t kMargin = 40;  // one part in this on both sides
  const std::int64_t margin = std::max((high - low) / kMargin, base::kDayMs / 2);
  ChartScale scale;
  scale.low = low - margin;
  scale.high = high + margin;
  const std::int64_t days = (scale.high - scale.low) / base::kDayMs + 1;
  for (const int step : {1, 2, 7, 14}) {
    if (days <= step * (kTicksMax - 1)) {
      add_days(scale, step);
      return scale;
    }
  }
  constexpr std::int64_t kMonthDays = 28;
  for (int step : {1, 2, 3, 6, 12, 24, 60, 120, 240, 1200, 6000}) {
    if (days <= step * kMonthDays * (kTicksMax - 1)) {
      add_months(scale, step);
      return scale;
    }
  }
  return scale;
}

}  // namespace benchwarden::document
