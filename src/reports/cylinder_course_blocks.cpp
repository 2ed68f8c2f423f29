#include "reports/cylinder_course_blocks.h"

#include "reports/course_json.h"
#include "reports/cylinder_course_charts.h"
#include "reports/number_text.h"
#include "reports/untold_words.h"

namespace benchwarden::reports {
namespace {

using findings::CylinderMoment;
using findings::GasLoss;
using findings::Untold;

constexpr int kPlaces = 3;

CellValue quantity_cell(const std::optional<quantities::Quantity>& quantity) {
  return quantity ? number_cell(quantity->value.thousandths * 1'000) : text_cell("", "");
}

std::string fixed_number(double value) {
  return number_text(thousandths_of(value) * 1'000, kPlaces);
}

/// "Cylinder check", or what a change did: "Came back filled".
std::string event_text(const HistoryParts& parts, const CylinderMoment& moment) {
  if (moment.change.empty()) return parts.texts.kind(moment.kind);
  return parts.texts.value(path_of("cylinder-change", "change"), entries::Code{moment.change});
}

/// Why no loss is told. Where this check tells the content, it is the one before that does not.
std::string no_loss_text(const HistoryParts& parts, const CylinderMoment& moment, Untold why) {
  const bool of_a_check =
      why == Untold::kNoPressure || why == Untold::kNoTemperature || why == Untold::kOutOfRange;
  const std::string& words = untold_words(why, parts.wording);
  if (!of_a_check || !moment.content || !moment.content->ok()) return words;
  return parts.wording.text("course.check_before", {{"why", words}});
}

void add_loss(const HistoryParts& parts, const CylinderMoment& moment, TableLine& line) {
  const findings::Told<GasLoss>& loss = *moment.loss;
  if (!loss) {
    line.cells["verdict"] =
        text_cell(no_loss_text(parts, moment, loss.error()), std::string(code_of(loss.error())));
    return;
  }
  line.cells["logged_use_kg"] = rounded_cell(loss->logged_use.si());
  line.cells["loss_kg"] = rounded_cell(loss->loss.si());
  line.cells["uncertainty_kg"] = rounded_cell(loss->expanded_uncertainty.si());
  line.cells["verdict"] = text_cell(verdict_words(loss->verdict, parts.wording), loss->verdict);
}

/// A loss that shows only since an earlier check than the one before.
std::string found_text(const HistoryParts& parts, const GasLoss& found) {
  return parts.wording.text("course.loss_found",
                            {{"entry", std::to_string(found.since_entry)},
                             {"date", date_text(parts.figures.zone.local(found.since))},
                             {"loss", fixed_number(found.loss.si())},
                             {"uncertainty", fixed_number(found.expanded_uncertainty.si())}});
}

TableLine moment_line(const HistoryParts& parts, const CylinderMoment& moment) {
  const base::Timestamp local = parts.figures.zone.local(moment.at);
  TableLine line;
  line.name = std::to_string(moment.entry);
  line.cells["entry"] = count_cell(moment.entry);
  line.cells["occurred_at"] = text_cell(date_text(local), base::format_rfc3339(local));
  line.cells["event"] =
      text_cell(event_text(parts, moment), moment.change.empty() ? moment.kind : moment.change);
  line.cells["gauge_pressure_bar"] = quantity_cell(moment.pressure);
  line.cells["ambient_temperature_c"] = quantity_cell(moment.temperature);
  if (moment.content && moment.content->ok()) {
    line.cells["content_kg"] = rounded_cell((*moment.content)->mass.si());
    line.cells["content_m3"] = rounded_cell((*moment.content)->volume.si());
  }
  if (moment.used && moment.used->ok()) {
    line.cells["logged_use_kg"] = rounded_cell((*moment.used)->si());
  } else if (moment.used) {
    line.cells["verdict"] = text_cell(untold_words(moment.used->error(), parts.wording),
                                      std::string(code_of(moment.used->error())));
  }
  if (moment.loss) {
    add_loss(parts, moment, line);
  } else if (moment.content && !moment.content->ok()) {
    line.cells["verdict"] = text_cell(untold_words(moment.content->error(), parts.wording),
                                      std::string(code_of(moment.content->error())));
  }
  const bool since_last = moment.loss && moment.loss->ok() && moment.beyond &&
                          (*moment.loss)->since_entry == moment.beyond->since_entry;
  if (moment.beyond && !since_last) line.details.push_back(found_text(parts, *moment.beyond));
  return line;
}

}  // namespace

Blocks cylinder_course_blocks(const CylinderHistoryFigures& figures, const HistoryParts& parts,
                              const SectionDefinition& section) {
  std::vector<TableLine> lines;
  for (const CylinderMoment& moment : figures.course) lines.push_back(moment_line(parts, moment));
  const TableWords words{"course", parts.wording.text("course.caption"),
                         parts.wording.text("course.none")};
  return {content_chart(figures, parts), flow_chart(figures, parts),
          lay_out(section, lines, words, "", parts.wording)};
}

}  // namespace benchwarden::reports
