#include "reports/history_document.h"

#include <algorithm>
#include <array>

#include "base/text.h"
#include "reports/number_text.h"
#include "reports/table_lines.h"
#include "reports/texts.h"

namespace benchwarden::reports {
namespace {

/// The fields in the order of the definition, then the others in the order they stand.
std::vector<const entries::Field*> ordered(const entries::Fields& fields,
                                           const SectionDefinition& section) {
  std::vector<const entries::Field*> all;
  for (const entries::Field& field : fields) all.push_back(&field);
  const auto rank = [&](const entries::Field* field) {
    return std::find(section.field_order.begin(), section.field_order.end(), field->name) -
           section.field_order.begin();
  };
  std::stable_sort(all.begin(), all.end(), [&](const entries::Field* a, const entries::Field* b) {
    return rank(a) < rank(b);
  });
  return all;
}

template <class Names>
bool is_one_of(const Names& names, std::string_view name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

CellValue quantity_cell(const entries::Fields& fields, std::string_view name,
                        const ReportWording& wording) {
  const auto* quantity = entries::find_field_as<quantities::Quantity>(fields, name);
  if (quantity == nullptr) return no_cell(wording);
  return number_cell(quantity->value.thousandths * 1'000);
}

CellValue psi_cell(const entries::Fields& fields, const ReportWording& wording) {
  const auto* bar = entries::find_field_as<quantities::Quantity>(fields, "gauge_pressure_bar");
  const auto psi = bar == nullptr ? std::nullopt : whole_psi(*bar);
  if (!psi) return no_cell(wording);
  return text_cell(number_text(*psi * 1'000'000, 0), std::to_string(*psi));
}

CellValue code_cell(const HistoryParts& parts, const entries::Fields& fields,
                    std::string_view name) {
  const auto* code = entries::find_field_as<entries::Code>(fields, name);
  if (code == nullptr) return no_cell(parts.wording);
  const std::string path = path_of(parts.check_kind, name);
  return text_cell(parts.texts.value(path, entries::FieldValue(*code)), code->slug);
}

/// What the columns do not say, all on one line.
std::string other_fields(const HistoryParts& parts, const HistoryLine& line,
                         const SectionDefinition& section) {
  std::vector<std::string> texts;
  for (const entries::Field* field : ordered(line.fields, section)) {
    const bool in_column = std::find(section.columns.begin(), section.columns.end(), field->name) !=
                           section.columns.end();
    if (in_column || is_one_of(parts.told_elsewhere, field->name)) continue;
    texts.push_back(parts.texts.labelled(path_of(parts.check_kind, field->name), field->value));
  }
  return base::join(texts, parts.wording.text("word.row_mark"));
}

std::string typed_text(const HistoryParts& parts, const entries::AsRead& typed) {
  const quantities::Unit* unit = quantities::find_unit(typed.unit);
  const std::int64_t millionths = typed.value.thousandths * 1'000;
  return parts.wording.text("checks.typed_as",
                            {{"field", parts.texts.label(path_of(parts.check_kind, typed.field))},
                             {"value", number_text(millionths, places_needed(millionths, 0))},
                             {"unit", unit == nullptr ? typed.unit : std::string(unit->symbol)}});
}

std::vector<std::string> check_details(const HistoryParts& parts, const HistoryLine& line,
                                       const SectionDefinition& section) {
  std::vector<std::string> details;
  const std::string others = other_fields(parts, line, section);
  if (!others.empty()) details.push_back(others);
  for (const entries::AsRead& typed : line.typed) details.push_back(typed_text(parts, typed));
  for (const CorrectionFigures& correction : line.corrections) {
    details.push_back(parts.texts.correction(correction));
  }
  if (line.struck) details.push_back(parts.wording.text("checks.struck"));
  return details;
}

TableLine check_line(const HistoryParts& parts, const HistoryLine& check,
                     const SectionDefinition& section) {
  TableLine line;
  line.name = std::to_string(check.entry.seq);
  line.cells["entry"] = count_cell(check.entry.seq);
  line.cells["checked_at"] =
      text_cell(time_text(check.entry.occurred_at), base::format_rfc3339(check.entry.occurred_at));
  for (const std::string_view name : {"gauge_pressure_bar", "ambient_temperature_c"}) {
    line.cells[name] = quantity_cell(check.fields, name, parts.wording);
  }
  line.cells["gauge_pressure_psi"] = psi_cell(check.fields, parts.wording);
  for (const std::string_view name : {"leak_test", "result"}) {
    line.cells[name] = code_cell(parts, check.fields, name);
  }
  line.cells["person"] = text_cell(parts.texts.person(check.entry.person), check.entry.person.id);
  line.details = check_details(parts, check, section);
  return line;
}

TableLine attribute_line(const HistoryParts& parts, const entries::Field& field) {
  const std::string path = path_of(kRegisterChange, field.name);
  TableLine line;
  line.name = field.name;
  line.cells["attribute"] = text_cell(parts.texts.label(path), field.name);
  line.cells["value"] = text_cell(parts.texts.value(path, field.value));
  return line;
}

/// "Container: w1".
CellValue thing_cell(const Texts& texts, const entries::Fields& fields) {
  const entries::FieldValue* thing_class = entries::find_field(fields, "thing_class");
  const auto* thing = entries::find_field_as<entries::Id>(fields, "thing");
  if (thing_class == nullptr || thing == nullptr) return no_cell(texts.wording());
  const auto* code = std::get_if<entries::Code>(thing_class);
  return text_cell(
      texts.wording().text(
          "word.label_and_value",
          {{"label", texts.value(path_of(kRegisterChange, "thing_class"), *thing_class)},
           {"value", thing->slug}}),
      code == nullptr ? thing->slug : code->slug + "/" + thing->slug);
}

std::vector<std::string> subject_lines(const HistoryParts& parts) {
  const HistoryFigures& figures = parts.figures;
  const ReportWording& wording = parts.wording;
  std::vector<std::string> lines;
  if (figures.known) {
    std::string thing =
        wording.text("subject.thing", {{"thing", figures.id}, {"name", figures.name}});
    if (figures.retired) thing = wording.text("word.retired", {{"thing", thing}});
    lines.push_back(std::move(thing));
  } else {
    lines.push_back(wording.text("subject.thing_unknown", {{"thing", figures.id}}));
  }
  for (std::string& line : site_lines(figures.frame, wording)) lines.push_back(std::move(line));
  lines.push_back(wording.text("subject.history_until", {{"as_of", time_text(figures.frame.as_of)},
                                                         {"zone", figures.frame.zone}}));
  for (std::string& line : book_lines(figures.frame, wording)) lines.push_back(std::move(line));
  return lines;
}

}  // namespace

TableLine register_change_line(const Texts& texts, const HistoryLine& change,
                               const SectionDefinition& section) {
  static constexpr std::array<std::string_view, 3> kInColumns{"thing_class", "thing", "act"};
  TableLine line;
  line.name = std::to_string(change.entry.seq);
  line.cells["entry"] = count_cell(change.entry.seq);
  line.cells["occurred_at"] = text_cell(time_text(change.entry.occurred_at),
                                        base::format_rfc3339(change.entry.occurred_at));
  line.cells["thing"] = thing_cell(texts, change.fields);
  if (const entries::FieldValue* act = entries::find_field(change.fields, "act")) {
    line.cells["act"] = text_cell(texts.value(path_of(kRegisterChange, "act"), *act));
  }
  line.cells["person"] = text_cell(texts.person(change.entry.person), change.entry.person.id);
  std::vector<std::string> said;
  for (const entries::Field* field : ordered(change.fields, section)) {
    if (is_one_of(kInColumns, field->name)) continue;
    said.push_back(texts.labelled(path_of(kRegisterChange, field->name), field->value));
  }
  if (!said.empty()) {
    line.details.push_back(base::join(said, texts.wording().text("word.row_mark")));
  }
  for (const CorrectionFigures& correction : change.corrections) {
    line.details.push_back(texts.correction(correction));
  }
  return line;
}

Blocks register_blocks(const HistoryParts& parts, const SectionDefinition& section) {
  std::vector<TableLine> lines;
  for (const entries::Field* field : ordered(parts.figures.attributes, section)) {
    lines.push_back(attribute_line(parts, *field));
  }
  const TableWords words{"register", parts.wording.text("register.caption"),
                         parts.wording.text("register.none")};
  return {lay_out(section, lines, words, "", parts.wording)};
}

Blocks check_blocks(const HistoryParts& parts, const SectionDefinition& section) {
  std::vector<TableLine> lines;
  for (const HistoryLine& check : parts.figures.checks) {
    lines.push_back(check_line(parts, check, section));
  }
  const TableWords words{"checks", parts.wording.text("checks.caption"),
                         parts.wording.text("checks.none")};
  return {lay_out(section, lines, words, "", parts.wording)};
}

Blocks change_blocks(const HistoryParts& parts, const SectionDefinition& section) {
  std::vector<TableLine> lines;
  for (const HistoryLine& change : parts.figures.changes) {
    lines.push_back(register_change_line(parts.texts, change, section));
  }
  const TableWords words{"changes", parts.wording.text("changes.caption"),
                         parts.wording.text("changes.none")};
  return {lay_out(section, lines, words, "", parts.wording)};
}

Blocks history_method_blocks(const HistoryParts& parts, const std::vector<std::string>& own) {
  std::vector<std::string> said{
      parts.wording.text("methods.order", {{"zone", parts.figures.frame.zone}})};
  said.insert(said.end(), own.begin(), own.end());
  return method_blocks_of(parts.figures.frame, parts.wording, said);
}

document::Document history_document(const HistoryParts& parts, const ReportDefinition& definition,
                                    const std::string& period) {
  document::Document document =
      framed_document(parts.figures.frame, definition.title, period, parts.wording);
  document.report_name = definition.id;
  document.subject_lines = subject_lines(parts);
  return document;
}

std::string path_of(std::string_view kind, std::string_view field) {
  return std::string(kind) + "/" + std::string(field);
}

std::int64_t chart_time(base::Timestamp local) {
  constexpr std::int64_t kMinuteMs = 60'000;
  return local.instant.ms + local.offset_minutes * kMinuteMs;
}

}  // namespace benchwarden::reports
