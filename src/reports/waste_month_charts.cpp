#include <algorithm>
#include <utility>

#include "reports/history_document.h"
#include "reports/number_text.h"
#include "reports/waste_month_tables.h"
#include "reports/waste_words.h"

// Levels over time and what arose month by month, as charts.

namespace benchwarden::reports {
namespace {

using document::ChartPoint;
using document::ChartSeries;
using document::Joined;
using document::Mark;
using tallies::CountedBy;

/// A forecast further ahead than this ends at the edge of the chart.
constexpr std::int64_t kAheadMs = std::int64_t{184} * 24 * 3'600'000;

std::int64_t in_thousandths(std::int64_t amount) { return to_thousandth(amount) / 1'000; }

std::string unit_symbol(CountedBy counted_by) {
  return std::string(quantities::find_unit(counted_by == CountedBy::kVolume ? "l" : "kg")->symbol);
}

/// Level until the next step, then straight up or down.
std::vector<ChartPoint> stairs(const MonthParts& parts, const LevelCourse& course) {
  std::vector<ChartPoint> points{
      {chart_time(parts.figures.levels_from), in_thousandths(course.opening)}};
  for (const LevelCourse::Step& step : course.steps) {
    const std::int64_t time = chart_time(step.at);
    points.push_back({time, points.back().value});
    points.push_back({time, in_thousandths(step.level)});
  }
  points.push_back({chart_time(parts.figures.until), points.back().value});
  return points;
}

/// From the end of the log straight to the limit on that day.
std::vector<ChartPoint> straight_to(const ChartPoint& from, base::CivilDate day,
                                    std::int64_t limit) {
  constexpr std::int64_t kDayMs = 24 * 3'600'000;
  const std::int64_t full = base::days_between({1970, 1, 1}, day) * kDayMs;
  if (full <= from.time_ms) return {from, {from.time_ms, limit}};
  if (full - from.time_ms <= kAheadMs) return {from, {full, limit}};
  // Of the way to a far day, what the chart shows.
  const double share = static_cast<double>(kAheadMs) / static_cast<double>(full - from.time_ms);
  const auto climbed = static_cast<std::int64_t>(static_cast<double>(limit - from.value) * share);
  return {from, {from.time_ms + kAheadMs, from.value + climbed}};
}

void draw_filling(document::Chart& chart, const MonthParts& parts, const LevelCourse& course,
                  const ChartPoint& end) {
  const FillingFigures& filling = *course.filling;
  const std::int64_t limit = in_thousandths(course.working_limit);
  ChartSeries median{parts.wording.text("charts.median"), Mark::kDot, Joined::kDashed, {}};
  if (filling.median) median.runs.push_back(straight_to(end, *filling.median, limit));
  ChartSeries bounds{parts.wording.text("charts.bounds"), Mark::kTriangle, Joined::kDashed, {}};
  for (const auto& day : {filling.earliest_80, filling.latest_80}) {
    if (day) bounds.runs.push_back(straight_to(end, *day, limit));
  }
  if (!median.runs.empty()) chart.series.push_back(std::move(median));
  if (!bounds.runs.empty()) chart.series.push_back(std::move(bounds));
}

document::Chart level_chart(const MonthParts& parts, const LevelCourse& course) {
  const ReportWording& wording = parts.wording;
  document::Chart chart;
  chart.caption =
      wording.text("charts.level", {{"thing", parts.texts.thing(course.container, course.name)}});
  chart.value_label = wording.text("charts.level_axis", {{"unit", unit_symbol(course.counted_by)}});
  chart.time_label = wording.text("course.time_axis", {{"zone", parts.figures.frame.zone}});
  chart.from_zero = true;
  std::vector<ChartPoint> points = stairs(parts, course);
  const ChartPoint end = points.back();
  chart.series.push_back(
      {wording.text("charts.log"), Mark::kNone, Joined::kSolid, {std::move(points)}});
  if (course.filling) draw_filling(chart, parts, course, end);
  if (course.working_limit > 0) {
    chart.limits.push_back(
        {wording.text("charts.limit",
                      {{"amount", amount_text(wording, course.counted_by, course.working_limit)}}),
         {in_thousandths(course.working_limit)}});
  }
  document::ChartEvents collected{wording.text("charts.collected"), {}};
  for (const base::Timestamp& at : course.collected) collected.times_ms.push_back(chart_time(at));
  if (!collected.times_ms.empty()) chart.events.push_back(std::move(collected));
  return chart;
}

std::string day_or_none(const MonthParts& parts, const std::optional<base::CivilDate>& day) {
  return day ? base::format_date(*day) : parts.wording.text("charts.not_bounded");
}

document::Paragraph filling_words(const MonthParts& parts, const LevelCourse& course) {
  const ReportWording& wording = parts.wording;
  if (!course.filling) {
    return {wording.text("charts.no_forecast"), document::ParagraphStyle::kSmall};
  }
  return {wording.text("charts.forecast",
                       {{"median", day_or_none(parts, course.filling->median)},
                        {"earliest", day_or_none(parts, course.filling->earliest_80)},
                        {"latest", day_or_none(parts, course.filling->latest_80)}}),
          document::ParagraphStyle::kSmall};
}

document::BarChart arisen_chart(const MonthParts& parts, const StreamCourse& course) {
  document::BarChart chart;
  chart.caption = parts.wording.text("year.bars", {{"stream", course.facts.name}});
  chart.value_label =
      parts.wording.text("year.bars_axis", {{"unit", unit_symbol(course.facts.counted_by)}});
  for (const auto& [month, amount] : course.arisen) {
    chart.bars.push_back(arisen_bar(month, amount));
  }
  return chart;
}

}  // namespace

Blocks chart_blocks(const MonthParts& parts) {
  Blocks blocks;
  for (const LevelCourse& course : parts.figures.levels) {
    blocks.emplace_back(level_chart(parts, course));
    blocks.emplace_back(filling_words(parts, course));
  }
  for (const StreamCourse& course : parts.figures.courses) {
    const bool any = std::any_of(course.arisen.begin(), course.arisen.end(),
                                 [](const auto& one) { return one.second != 0; });
    if (any) blocks.emplace_back(arisen_chart(parts, course));
  }
  if (blocks.empty()) blocks = {document::Paragraph{parts.wording.text("charts.none")}};
  return blocks;
}

}  // namespace benchwarden::reports
