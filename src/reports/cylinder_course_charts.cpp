#include "reports/cylinder_course_charts.h"

#include <utility>

#include "reports/course_json.h"

namespace benchwarden::reports {
namespace {

using document::ChartPoint;
using document::ChartSeries;
using document::Joined;
using document::Mark;
using findings::CylinderMoment;

std::int64_t time_of(const CylinderHistoryFigures& figures, const CylinderMoment& moment) {
  return chart_time(figures.history.zone.local(moment.at));
}

document::Chart chart_in_kg(const CylinderHistoryFigures& figures, const HistoryParts& parts,
                            Key caption, Key axis) {
  document::Chart chart;
  chart.caption = parts.wording.text(caption);
  chart.value_label = parts.wording.text(axis);
  chart.time_label = parts.wording.text("course.time_axis", {{"zone", figures.history.frame.zone}});
  chart.from_zero = true;
  return chart;
}

document::ChartEvents fillings_of(const CylinderHistoryFigures& figures,
                                  const HistoryParts& parts) {
  document::ChartEvents fillings{parts.wording.text("course.fillings"), {}};
  for (const CylinderMoment& moment : figures.course) {
    if (moment.filling) fillings.times_ms.push_back(time_of(figures, moment));
  }
  return fillings;
}

/// Adds up what left the cylinder from check to check.
class Flow {
 public:
  Flow(ChartSeries& gone, ChartSeries& used) : gone_(gone), used_(used) {}

  void take(std::int64_t time_ms, const CylinderMoment& moment) {
    if (moment.filling) {
      gone_kg_ = 0;
      used_kg_ = 0;
      begin_runs();
    }
    if (!moment.content || !moment.content->ok()) return;
    if (moment.loss && moment.loss->ok()) {
      const findings::GasLoss& loss = **moment.loss;
      used_kg_ += loss.logged_use.si();
      gone_kg_ += loss.logged_use.si() + loss.loss.si();
    } else {
      begin_runs();
    }
    gone_.runs.back().push_back({time_ms, thousandths_of(gone_kg_)});
    used_.runs.back().push_back({time_ms, thousandths_of(used_kg_)});
  }

 private:
  void begin_runs() {
    gone_.runs.emplace_back();
    used_.runs.emplace_back();
  }

  ChartSeries& gone_;
  ChartSeries& used_;
  double gone_kg_ = 0;
  double used_kg_ = 0;
};

}  // namespace

document::Chart content_chart(const CylinderHistoryFigures& figures, const HistoryParts& parts) {
  ChartSeries contents{parts.wording.text("course.contents"), Mark::kDot, Joined::kSolid, {{}}};
  ChartSeries losses{parts.wording.text("course.losses"), Mark::kTriangle, Joined::kNot, {{}}};
  for (const CylinderMoment& moment : figures.course) {
    if (moment.filling) contents.runs.emplace_back();
    if (!moment.content || !moment.content->ok()) continue;
    const ChartPoint point{time_of(figures, moment), thousandths_of((*moment.content)->mass.si())};
    contents.runs.back().push_back(point);
    if (moment.beyond) losses.runs.front().push_back(point);
  }
  document::Chart chart = chart_in_kg(figures, parts, "course.chart", "course.content_axis");
  chart.series.push_back(std::move(contents));
  if (!losses.runs.front().empty()) chart.series.push_back(std::move(losses));
  document::ChartEvents fillings = fillings_of(figures, parts);
  if (!fillings.times_ms.empty()) chart.events.push_back(std::move(fillings));
  return chart;
}

document::Chart flow_chart(const CylinderHistoryFigures& figures, const HistoryParts& parts) {
  ChartSeries gone{parts.wording.text("course.gone"), Mark::kDot, Joined::kSolid, {{}}};
  ChartSeries used{parts.wording.text("course.used"), Mark::kRing, Joined::kDashed, {{}}};
  Flow flow(gone, used);
  for (const CylinderMoment& moment : figures.course) flow.take(time_of(figures, moment), moment);
  document::Chart chart = chart_in_kg(figures, parts, "course.flow_chart", "course.flow_axis");
  chart.series.push_back(std::move(gone));
  chart.series.push_back(std::move(used));
  document::ChartEvents fillings = fillings_of(figures, parts);
  if (!fillings.times_ms.empty()) chart.events.push_back(std::move(fillings));
  return chart;
}

}  // namespace benchwarden::reports
