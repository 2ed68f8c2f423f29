#include "reports/collection_sheet_tables.h"

#include <algorithm>
#include <array>
#include <utility>

#include "base/text.h"
#include "reports/number_text.h"
#include "reports/table_lines.h"
#include "reports/waste_words.h"

namespace benchwarden::reports {
namespace {

using tallies::CountedBy;

TableLine party_line(const SheetParts& parts, const std::string& name, const std::string& label,
                     const std::string& value) {
  TableLine line;
  line.name = name;
  line.cells["attribute"] = text_cell(label, name);
  line.cells["value"] =
      value.empty() ? text_cell(parts.wording.text("word.not_recorded"), "") : text_cell(value);
  return line;
}

std::string attribute_label(const SheetParts& parts, std::string_view field) {
  return parts.texts.label("register-change/" + std::string(field));
}

std::string planned_text(const SheetParts& parts) {
  const auto& day = parts.figures.planned_for;
  return day ? base::format_date(*day) : "";
}

std::string carrier_text(const SheetParts& parts) {
  const CarrierFacts& carrier = parts.figures.carrier;
  return carrier.id.empty() ? "" : parts.texts.thing(carrier.id, carrier.name);
}

/// "Hazardous: Yes; Flash point: 65 °C; not entered: Halogenated".
std::string hazards_text(const SheetParts& parts, const SheetLoad& load) {
  const ReportWording& wording = parts.wording;
  std::vector<std::string> told;
  for (const entries::Field& field : load.hazards) {
    told.push_back(parts.texts.labelled("register-change/" + field.name, field.value));
  }
  std::vector<std::string> missing;
  for (const std::string& field : load.hazards_missing) {
    missing.push_back(attribute_label(parts, field));
  }
  if (!missing.empty()) {
    told.push_back(wording.text("handover.not_entered",
                                {{"fields", base::join(missing, wording.text("word.list_mark"))}}));
  }
  return wording.text("handover.hazards",
                      {{"hazards", base::join(told, wording.text("word.row_mark"))}});
}

/// The fields an entry tells, beside those that say what it is about.
std::string fields_text(const SheetParts& parts, const SheetTold& told) {
  constexpr std::array<std::string_view, 3> kAbout{"tested_class", "container", "stream"};
  std::vector<std::string> texts;
  for (const entries::Field& field : told.fields) {
    if (std::find(kAbout.begin(), kAbout.end(), field.name) != kAbout.end()) continue;
    texts.push_back(parts.texts.labelled(told.kind + "/" + field.name, field.value));
  }
  return base::join(texts, parts.wording.text("word.row_mark"));
}

ReportWording::Values told_values(const SheetParts& parts, const SheetTold& told) {
  return {{"entry", count_text(told.seq)},
          {"date", date_text(told.at)},
          {"what", fields_text(parts, told)}};
}

std::vector<std::string> load_details(const SheetParts& parts, const SheetLoad& load) {
  const ReportWording& wording = parts.wording;
  std::vector<std::string> lines{hazards_text(parts, load)};
  if (!load.national_code.empty()) {
    lines.push_back(wording.text(
        "word.label_and_value",
        {{"label", attribute_label(parts, "national_code")}, {"value", load.national_code}}));
  }
  if (load.stated_mass) {
    lines.push_back(
        wording.text("handover.stated_mass",
                     {{"mass", amount_text(wording, CountedBy::kMass, *load.stated_mass)}}));
  }
  for (const SheetTold& told : load.suspicions) {
    lines.push_back(wording.text("handover.suspicion", told_values(parts, told)));
  }
  for (const SheetTold& told : load.tests) {
    lines.push_back(wording.text("handover.test", told_values(parts, told)));
  }
  if (load.suspicions.empty()) {
    lines.push_back(load.tests.empty() ? wording.text("handover.nothing_told")
                                       : wording.text("handover.no_suspicion"));
  } else if (load.tests.empty()) {
    lines.push_back(wording.text("handover.no_test"));
  }
  return lines;
}

CellValue volume_or_none(const SheetLoad& load, const ReportWording& wording) {
  return load.amount ? litres_cell(load.stream, *load.amount, wording) : no_cell(wording);
}

CellValue emptied_cell(const SheetLoad& load, const ReportWording& wording) {
  if (!load.emptied) return no_cell(wording);
  return text_cell(wording.yes_no(*load.emptied), *load.emptied ? "yes" : "no");
}

TableLine load_line(const SheetParts& parts, const SheetLoad& load) {
  const ReportWording& wording = parts.wording;
  TableLine line;
  line.name = std::to_string(load.seq) + " " + load.container;
  line.cells["container"] = text_cell(parts.texts.thing(load.container, load.name), load.container);
  line.cells["stream"] = text_cell(load.stream.name, load.stream.id);
  line.cells["low_code"] = text_cell(code_text(load.stream), load.stream.low_code);
  line.cells["volume_l"] = volume_or_none(load, wording);
  line.cells["mass_kg"] = number_or_none(load.mass, wording);
  line.cells["weighed_kg"] = number_or_none(load.weighed_mass, wording);
  line.cells["left_empty"] = emptied_cell(load, wording);
  line.cells["accumulation_start"] =
      load.accumulation_start ? text_cell(date_text(*load.accumulation_start)) : no_cell(wording);
  line.cells["entry"] = count_cell(load.seq);
  line.details = load_details(parts, load);
  return line;
}

TableLine loads_total(const SheetParts& parts) {
  TableLine line;
  line.kind = document::RowKind::kTotal;
  line.name = "total";
  line.cells["container"] = text_cell(parts.wording.text("handover.total"), "total");
  if (parts.figures.total_volume) {
    line.cells["volume_l"] = number_cell(*parts.figures.total_volume);
  }
  line.cells["mass_kg"] = number_or_none(parts.figures.total_mass, parts.wording);
  return line;
}

/// What the columns do not say of an entry, and what was corrected of it.
std::vector<std::string> stage_details(const SheetParts& parts, const SheetStage& stage) {
  constexpr std::array<std::string_view, 4> kTold{"carrier", "planned_date", "refused", "note"};
  std::vector<std::string> lines;
  std::vector<std::string> told;
  for (const std::string_view name : kTold) {
    const entries::FieldValue* value = entries::find_field(stage.told, name);
    if (value == nullptr) continue;
    told.push_back(parts.texts.labelled("collection/" + std::string(name), *value));
  }
  if (!told.empty()) lines.push_back(base::join(told, parts.wording.text("word.row_mark")));
  for (const CorrectionFigures& correction : stage.corrections) {
    lines.push_back(parts.texts.correction(correction));
  }
  return lines;
}

TableLine stage_line(const SheetParts& parts, const SheetStage& stage) {
  TableLine line;
  line.name = std::to_string(stage.entry.seq);
  line.cells["entry"] = count_cell(stage.entry.seq);
  line.cells["occurred_at"] =
      text_cell(time_text(stage.entry.occurred_at), base::format_rfc3339(stage.entry.occurred_at));
  line.cells["stage"] =
      text_cell(parts.texts.value("collection/stage", entries::Code{stage.stage}), stage.stage);
  line.cells["document_number"] =
      text_cell(std::string(tallies::word(stage.told, "document_number")));
  line.cells["person"] = text_cell(parts.texts.person(stage.entry.person), stage.entry.person.id);
  line.details = stage_details(parts, stage);
  return line;
}

/// A box where something was left, one line where nothing was.
document::Block left_block(const SheetParts& parts) {
  const ReportWording& wording = parts.wording;
  document::NoteBox left;
  left.title = wording.text("handover.left_behind");
  for (const auto& [container, name] : parts.figures.left_behind) {
    left.lines.push_back(parts.texts.thing(container, name));
  }
  for (const SheetStage& stage : parts.figures.stages) {
    const std::string refused(tallies::word(stage.told, "refused"));
    if (stage.struck || refused.empty()) continue;
    left.lines.push_back(wording.text("handover.refused",
                                      {{"entry", count_text(stage.entry.seq)}, {"what", refused}}));
  }
  if (!left.lines.empty()) return left;
  return document::Paragraph{wording.text("quality.none", {{"what", left.title}}),
                             document::ParagraphStyle::kSmall};
}

}  // namespace

Blocks sheet_party_blocks(const SheetParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.wording;
  const CollectionSheetFigures& figures = parts.figures;
  const CarrierFacts& carrier = figures.carrier;
  const std::vector<TableLine> lines{
      party_line(
          parts, "site",
          wording.text(is_taken(parts) ? Key("handover.from") : Key("handover.from_planned")),
          figures.frame.site_name),
      party_line(parts, "address", attribute_label(parts, "address"), figures.frame.site_address),
      party_line(parts, "site_reference", attribute_label(parts, "site_reference"),
                 figures.frame.site_reference),
      party_line(parts, "emergency_phone", attribute_label(parts, "emergency_phone"),
                 figures.emergency_phone),
      party_line(parts, "carrier",
                 wording.text(is_taken(parts) ? Key("handover.to") : Key("handover.to_planned")),
                 carrier_text(parts)),
      party_line(parts, "registration_number", attribute_label(parts, "registration_number"),
                 carrier.registration),
      party_line(parts, "registration_expires", attribute_label(parts, "registration_expires"),
                 carrier.registration_expires),
      party_line(parts, "telephone", attribute_label(parts, "telephone"), carrier.telephone),
      party_line(parts, "planned_for", parts.texts.label("collection/planned_date"),
                 planned_text(parts)),
      party_line(parts, "document_number", parts.texts.label("collection/document_number"),
                 base::join(figures.documents, wording.text("word.list_mark")))};
  const TableWords words{"parties", wording.text("handover.parties"), ""};
  return {lay_out(section, lines, words, "", wording)};
}

Blocks sheet_load_blocks(const SheetParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.wording;
  std::vector<TableLine> lines;
  for (const SheetLoad& load : parts.figures.loads) lines.push_back(load_line(parts, load));
  if (!lines.empty()) lines.push_back(loads_total(parts));
  const TableWords words{"loads",
                         is_taken(parts) ? wording.text("handover.loads_taken")
                                         : wording.text("handover.loads_planned"),
                         wording.text("handover.no_loads")};
  Blocks blocks{lay_out(section, lines, words, "", wording)};
  if (parts.figures.state != SheetState::kDraft) blocks.push_back(left_block(parts));
  return blocks;
}

Blocks sheet_stage_blocks(const SheetParts& parts, const SectionDefinition& section) {
  std::vector<TableLine> lines;
  for (const SheetStage& stage : parts.figures.stages) lines.push_back(stage_line(parts, stage));
  const TableWords words{"stages", parts.wording.text("handover.stages"), ""};
  return {lay_out(section, lines, words, "", parts.wording)};
}

}  // namespace benchwarden::reports
