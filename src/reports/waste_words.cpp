#include "reports/waste_words.h"

#include <algorithm>
#include <utility>

#include "quantities/units.h"
#include "reports/number_text.h"

namespace benchwarden::reports {
namespace {

CellValue returned_cell(const CollectedFigures& collected, const ReportWording& wording) {
  if (collected.document_returned) return text_cell(date_text(*collected.document_returned));
  return text_cell(wording.text("collections.not_returned"), "");
}

/// None when one of the two is none.
std::optional<std::int64_t> mass_sum(const std::optional<std::int64_t>& a,
                                     const std::optional<std::int64_t>& b) {
  return a && b ? std::optional(*a + *b) : std::nullopt;
}

}  // namespace

std::string code_text(const tallies::StreamFacts& stream) {
  return stream.low_code + (stream.hazardous && !stream.low_code.empty() ? "*" : "");
}

std::string stream_text(const ReportWording& wording, const tallies::StreamFacts& stream) {
  if (stream.low_code.empty()) return stream.name;
  return wording.text("streams.name_and_code",
                      {{"stream", stream.name}, {"code", code_text(stream)}});
}

std::string stream_anchor(const std::string& stream) { return "stream-" + stream; }

std::string amount_text(const ReportWording& wording, tallies::CountedBy counted_by,
                        std::int64_t millionths) {
  const auto* unit = quantities::find_unit(counted_by == tallies::CountedBy::kVolume ? "l" : "kg");
  return wording.text("word.value_and_unit",
                      {{"value", number_text(millionths, places_needed(millionths, 0))},
                       {"unit", std::string(unit->symbol)}});
}

std::string density_text(const ReportWording& wording, const StreamFigures& stream) {
  if (!stream.facts.density) {
    return wording.text("streams.no_mass", {{"stream", stream.facts.name}});
  }
  // g/m³ are thousandths of the kg/m³ that is printed.
  const std::int64_t millionths = stream.facts.density->count() * 1'000;
  return wording.text(
      "streams.density",
      {{"stream", stream.facts.name},
       {"density", number_text(millionths, places_needed(millionths, 0))},
       {"unit", std::string(quantities::find_unit("kg_m3")->symbol)},
       {"source", stream.density_source.empty() ? wording.text("streams.density_no_source")
                                                : stream.density_source}});
}

document::KeyFigure mass_figure(const std::string& label, const std::string& name,
                                const std::optional<std::int64_t>& mass,
                                const ReportWording& wording) {
  document::KeyFigure figure;
  figure.label = label;
  figure.name = name;
  figure.unit = quantities::find_unit("kg")->symbol;
  // Rounded to the gram: three places print it exactly.
  figure.value = mass ? number_text(*mass, 3) : wording.text("word.no_figure");
  figure.raw = mass ? std::optional(plain_number(*mass, 3)) : "";
  return figure;
}

document::KeyFigures waste_key_figures(const MassTotals& hazardous, const MassTotals& other,
                                       const ReportWording& wording) {
  document::KeyFigures key;
  key.name = "figures";
  key.figures = {
      mass_figure(wording.text("figures.hazardous_arisen"), "hazardous_arisen_kg", hazardous.arisen,
                  wording),
      mass_figure(wording.text("figures.other_arisen"), "other_arisen_kg", other.arisen, wording),
      mass_figure(wording.text("figures.collected"), "collected_kg",
                  mass_sum(hazardous.collected, other.collected), wording),
      mass_figure(wording.text("figures.standing"), "standing_kg",
                  mass_sum(hazardous.standing, other.standing), wording)};
  return key;
}

CellValue litres_cell(const tallies::StreamFacts& stream, std::int64_t amount,
                      const ReportWording& wording) {
  return stream.counted_by == tallies::CountedBy::kVolume ? number_cell(amount) : no_cell(wording);
}

TableLine mass_total_line(const std::string& title, const std::string& name,
                          const MassTotals& totals, const ReportWording& wording) {
  TableLine line;
  line.kind = document::RowKind::kTotal;
  line.name = name;
  line.cells["stream"] = text_cell(title, name);
  line.cells["arisen_kg"] = number_or_none(totals.arisen, wording);
  line.cells["collected_kg"] = number_or_none(totals.collected, wording);
  line.cells["standing_kg"] = number_or_none(totals.standing, wording);
  return line;
}

document::Bar arisen_bar(base::CivilMonth month, std::int64_t amount) {
  const std::int64_t printed = to_printed(amount);
  return {base::format_month(month), std::max<std::int64_t>(to_thousandth(amount) / 1'000, 0),
          number_text(printed, places_needed(printed, 3))};
}

TableLine collected_line(const Texts& texts, const CollectedFigures& collected) {
  const ReportWording& wording = texts.wording();
  TableLine line;
  line.name = std::to_string(collected.seq) + " " + collected.container;
  line.cells["taken_at"] = text_cell(date_text(collected.taken_at));
  line.cells["document_number"] = collected.document_number.empty()
                                      ? text_cell(wording.text("word.not_recorded"), "")
                                      : text_cell(collected.document_number);
  line.cells["carrier"] =
      text_cell(texts.thing(collected.carrier, collected.carrier_name), collected.carrier);
  line.cells["container"] =
      text_cell(texts.thing(collected.container, collected.container_name), collected.container);
  line.cells["stream"] = text_cell(collected.stream.name, collected.stream.id);
  line.cells["collected_l"] = litres_cell(collected.stream, collected.amount, wording);
  line.cells["collected_kg"] = number_or_none(collected.mass, wording);
  line.cells["weighed_kg"] = number_or_none(collected.weighed_mass, wording);
  line.cells["document_returned"] = returned_cell(collected, wording);
  line.cells["entry"] = count_cell(collected.seq);
  if (collected.stated_mass) {
    const std::int64_t mass = *collected.stated_mass;
    line.details.push_back(wording.text(
        "collections.stated_mass", {{"mass", number_text(mass, places_needed(mass, 3))},
                                    {"unit", std::string(quantities::find_unit("kg")->symbol)}}));
  }
  return line;
}

document::Block open_documents_block(const ReportWording& wording, const std::string& title,
                                     const std::vector<OpenDocument>& open) {
  if (open.empty()) {
    return document::Paragraph{wording.text("quality.none", {{"what", title}}),
                               document::ParagraphStyle::kSmall};
  }
  document::NoteBox box;
  box.title = title;
  for (const OpenDocument& one : open) {
    box.lines.push_back(
        wording.text("collections.open",
                     {{"collection", one.collection},
                      {"document", one.document_number.empty() ? wording.text("word.not_recorded")
                                                               : one.document_number},
                      {"date", date_text(one.taken_at)}}));
  }
  return box;
}

}  // namespace benchwarden::reports
