#include "reports/gauge_course_blocks.h"

#include <algorithm>
#include <cmath>

#include "reports/course_json.h"
#include "reports/number_text.h"
#include "reports/untold_words.h"

namespace benchwarden::reports {
namespace {

using findings::GaugeError;
using findings::GaugeMoment;

double error_of(const GaugeError& point) { return point.as_found - point.reference; }

std::string number(double value) {
  const std::int64_t millionths = thousandths_of(value) * 1'000;
  return number_text(millionths, places_needed(millionths, 0));
}

TableLine point_line(const HistoryParts& parts, const GaugeMoment& moment, std::size_t index) {
  const base::Timestamp local = parts.figures.zone.local(moment.at);
  const GaugeError& point = moment.points[index];
  TableLine line;
  line.name = std::to_string(moment.entry) + "/" + std::to_string(index + 1);
  line.cells["entry"] = count_cell(moment.entry);
  line.cells["occurred_at"] = text_cell(time_text(local), base::format_rfc3339(local));
  line.cells["reference_bar"] = rounded_cell(point.reference);
  line.cells["as_found_bar"] = rounded_cell(point.as_found);
  if (point.as_left) line.cells["as_left_bar"] = rounded_cell(*point.as_left);
  line.cells["error_bar"] = rounded_cell(error_of(point));
  if (point.limit) {
    line.cells["limit_bar"] = rounded_cell(*point.limit);
    line.cells["beyond_limit"] = text_cell(
        parts.wording.text(point.beyond ? Key("course.beyond") : Key("course.not_beyond")),
        point.beyond ? "yes" : "no");
  }
  return line;
}

std::string forecast_text(const ToolHistoryFigures& figures, const HistoryParts& parts) {
  const auto& forecast = figures.course.forecast;
  if (!forecast) {
    return parts.wording.text("course.no_forecast",
                              {{"why", untold_words(forecast.error(), parts.wording)}});
  }
  return parts.wording.text("course.forecast",
                            {{"count", std::to_string(forecast->inspections.size())},
                             {"point", number(forecast->reference)},
                             {"error", number(forecast->error)},
                             {"limit", number(forecast->limit)},
                             {"day", base::format_date(forecast->leaves)}});
}

/// Of its limit, or in bar where there is none.
double weight_of(const GaugeError& point) {
  return std::abs(error_of(point)) / point.limit.value_or(1);
}

/// The pressure of the chart: that of the forecast, else where the last inspection with points
/// found most of the limit taken.
const GaugeError* charted_point(const ToolHistoryFigures& figures) {
  const auto& moments = figures.course.moments;
  const auto last = std::find_if(moments.rbegin(), moments.rend(),
                                 [](const GaugeMoment& moment) { return !moment.points.empty(); });
  if (last == moments.rend()) return nullptr;
  const auto& forecast = figures.course.forecast;
  const auto& points = last->points;
  if (forecast) {
    const auto found = std::find_if(points.begin(), points.end(), [&](const GaugeError& point) {
      return point.reference == forecast->reference;
    });
    if (found != points.end()) return &*found;
  }
  return &*std::max_element(
      points.begin(), points.end(),
      [](const GaugeError& a, const GaugeError& b) { return weight_of(a) < weight_of(b); });
}

void add_errors(const ToolHistoryFigures& figures, const HistoryParts& parts, double reference,
                document::Chart& chart) {
  const ReportWording& wording = parts.wording;
  document::ChartSeries found{wording.text("course.errors", {{"point", number(reference)}}),
                              document::Mark::kDot,
                              document::Joined::kSolid,
                              {{}}};
  document::ChartSeries left{
      wording.text("course.left"), document::Mark::kRing, document::Joined::kNot, {{}}};
  document::ChartEvents adjusted{wording.text("course.adjustments"), {}};
  for (const GaugeMoment& moment : figures.course.moments) {
    const std::int64_t time = chart_time(figures.history.zone.local(moment.at));
    for (const GaugeError& point : moment.points) {
      if (point.reference != reference) continue;
      found.runs.back().push_back({time, thousandths_of(error_of(point))});
      if (moment.adjusted && point.as_left) {
        left.runs.back().push_back({time, thousandths_of(*point.as_left - reference)});
      }
      break;
    }
    if (moment.adjusted) {
      adjusted.times_ms.push_back(time);
      found.runs.emplace_back();
    }
  }
  chart.series.push_back(std::move(found));
  if (!left.runs.front().empty()) chart.series.push_back(std::move(left));
  if (!adjusted.times_ms.empty()) chart.events.push_back(std::move(adjusted));
}

void add_forecast(const ToolHistoryFigures& figures, const HistoryParts& parts,
                  document::Chart& chart) {
  const auto& forecast = figures.course.forecast;
  if (!forecast) return;
  const auto start_of = [&](base::CivilDate day) {
    return chart_time(figures.history.zone.local(figures.history.zone.start_of(day)));
  };
  const findings::ErrorLine& line = forecast->line;
  chart.series.push_back({parts.wording.text("course.error_line"),
                          document::Mark::kNone,
                          document::Joined::kDashed,
                          {{{start_of(line.first), thousandths_of(line.first_error)},
                            {start_of(forecast->leaves), thousandths_of(line.last_error)}}}});
}

document::Chart chart_of(const ToolHistoryFigures& figures, const HistoryParts& parts,
                         const GaugeError& point) {
  const ReportWording& wording = parts.wording;
  document::Chart chart;
  chart.caption = wording.text("course.error_chart", {{"point", number(point.reference)}});
  chart.value_label = wording.text("course.error_axis");
  chart.time_label = wording.text("course.time_axis", {{"zone", figures.history.frame.zone}});
  add_errors(figures, parts, point.reference, chart);
  add_forecast(figures, parts, chart);
  if (point.limit) {
    const std::int64_t limit = thousandths_of(*point.limit);
    chart.limits.push_back(
        {wording.text("course.class_limit", {{"limit", number(*point.limit)}}), {limit, -limit}});
  }
  return chart;
}

}  // namespace

Blocks gauge_course_blocks(const ToolHistoryFigures& figures, const HistoryParts& parts,
                           const SectionDefinition& section) {
  std::vector<TableLine> lines;
  for (const GaugeMoment& moment : figures.course.moments) {
    for (std::size_t i = 0; i < moment.points.size(); ++i) {
      lines.push_back(point_line(parts, moment, i));
    }
  }
  const TableWords words{"course", parts.wording.text("course.points"),
                         parts.wording.text("course.no_points")};
  Blocks blocks{document::Paragraph{forecast_text(figures, parts)}};
  if (const GaugeError* point = charted_point(figures)) {
    blocks.push_back(chart_of(figures, parts, *point));
  }
  blocks.push_back(lay_out(section, lines, words, "", parts.wording));
  return blocks;
}

}  // namespace benchwarden::reports
