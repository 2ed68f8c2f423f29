#include "print/sample.h"

#include <fstream>
#include <sstream>
#include <stdexcept>

namespace benchwarden::print {
namespace {

using namespace document;  // NOLINT(google-build-using-namespace): the page is made of its types

Furniture furniture() {
  return {"Saltmarsh Damper Works, Quay Lane 4",
          "October 2026",
          "made 2026-11-02 08:15 +01:00",
          "book size 1 204",
          "tree head 3f9a c017 b2e4",
          {},
          "page {page} of {pages}",
          "NOT FOR ISSUE",
          "signs missing: {count}"};
}

Table streams() {
  Table table;
  table.caption = "Waste added, by stream";
  table.name = "streams";
  table.columns = {{"Waste stream", "", Align::kText, "stream"},
                   {"List of Waste code", "", Align::kText, "low_code"},
                   {"Entries", "", Align::kNumber, "entries"},
                   {"Volume", "L", Align::kDecimal, "volume_l"},
                   {"Mass", "kg", Align::kDecimal, "mass_kg"}};
  table.rows = {{{{"Mineral suspension oil, free of chlorine"},
                  {"13 02 05*"},
                  {"41", "41"},
                  {"38.62", "38.62"},
                  {"33.6", "33.6"}}},
                {{{"Spent solvent"},
                  {"14 06 03*"},
                  {"3", "3"},
                  {"1\u2009204.5", "1204.5"},
                  {"1.18", "1.18"}}},
                {{{"Oily rags"}, {"15 02 02*"}, {"8", "8"}, {"\u2013", ""}, {"6", "6"}}},
                {{{"All streams"}, {""}, {"52", "52"}, {""}, {"40.78", "40.78"}}, RowKind::kTotal}};
  return table;
}

Table containers() {
  Table table;
  table.caption =
      "What each container held: opening + added \u2212 collected \u00B1 corrections = closing";
  table.name = "containers";
  table.columns = {{"Container", "", Align::kText},
                   {"Opening", "L", Align::kDecimal},
                   {"Added", "L", Align::kDecimal},
                   {"Collected", "L", Align::kDecimal},
                   {"Corrections", "L", Align::kDecimal},
                   {"Closing", "L", Align::kDecimal},
                   {"Unexplained difference", "L", Align::kDecimal}};
  table.rows = {{{{"D-07, 205 L drum, waste oil"},
                  {"112.400"},
                  {"38.620"},
                  {"0"},
                  {"\u22120.062", "-0.062"},
                  {"150.958"},
                  {"cannot tell"}},
                 RowKind::kNormal,
                 {"corrected 2026-10-14 by Bench A: 62 mL was 124 mL, misread the jug"}},
                {{{"D-09, 60 L drum, waste oil"},
                  {"58.1"},
                  {"0"},
                  {"58.1"},
                  {"0"},
                  {"0"},
                  {"+1.4", "1.4", Emphasis::kStrong}}}};
  return table;
}

Table collections() {
  Table table;
  table.caption = "Collections";
  table.columns = {{"Date", "", Align::kText},
                   {"Carrier", "", Align::kText},
                   {"Document", "", Align::kText},
                   {"Mass", "kg", Align::kDecimal}};
  table.when_empty = "No collection in this month.";
  return table;
}

}  // namespace

std::string read_file(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) {
    throw std::runtime_error("cannot read " + path);
  }
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t found = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++found;
  }
  return found;
}

const std::string& sample_font() {
  static const std::string font = read_file(BENCHWARDEN_FONT);
  return font;
}

const FontMetrics& sample_metrics() {
  static const FontMetrics metrics = FontMetrics::read(sample_font()).value();
  return metrics;
}

Layout sample_layout() {
  const std::string bytes = read_file(BENCHWARDEN_TOP "/reports/layout/report.toml");
  return read_layout({"reports/layout/report.toml", bytes}).value();
}

PdfOptions sample_options(Paper paper) {
  return {paper, sample_font(), {1'793'690'103'000}, sample_layout()};
}

Document sample_document() {
  Document document;
  document.title = "Waste in October 2026";
  document.subject_lines = {"Saltmarsh Damper Works, Quay Lane 4, Saltmarsh",
                            "1 to 31 October 2026, time zone Europe/Oslo"};
  document.report_name = "waste-month";
  document.author = "Saltmarsh Damper Works";
  document.furniture = furniture();
  Section month;
  month.blocks.emplace_back(KeyFigures{{{"Waste oil drained", "38.62", "L", "38.62", "oil_l"},
                                        {"Mass of all streams", "40.78", "kg", "40.78", "mass_kg"},
                                        {"Collected", "58.1", "L", "58.1", "collected_l"}},
                                       "month"});
  month.blocks.emplace_back(Heading{1, "Streams"});
  month.blocks.emplace_back(streams());
  month.blocks.emplace_back(Heading{1, "Containers"});
  month.blocks.emplace_back(Paragraph{
      "Volumes are as logged at the bench. The difference compares the log with the last dip and "
      "is stated only when it is larger than both uncertainties together (k = 2)."});
  month.blocks.emplace_back(containers());
  month.blocks.emplace_back(collections());
  month.blocks.emplace_back(Heading{1, "Quality of the data"});
  month.blocks.emplace_back(
      NoteBox{"What to know about these figures",
              {"1 entry came late (recorded more than 24 h after the work).", "1 correction.",
               "2 entries by a person whose PIN was not asked for."},
              "none"});
  month.blocks.emplace_back(NoteBox{"Containers without a reading this month", {}, "none"});
  month.blocks.emplace_back(
      CautionBox{"Used oil and skin",
                 {"Keep used oil off the skin; wear gloves that the safety data sheet names.",
                  "Local rules, the maker's instructions and competent persons come first."},
                 {"Common practice, no source."}});
  month.blocks.emplace_back(
      Paragraph{"Rags with drying oils can heat themselves: bin shut, emptied each day.",
                ParagraphStyle::kCaution});
  month.blocks.emplace_back(
      Paragraph{"Letters of other scripts: Łódź żółć, Ελληνικά, Кириллица, ≥ ≤ ± Ω € ½ №.",
                ParagraphStyle::kSmall});
  month.blocks.emplace_back(SignatureLine{{"Name", "Date", "Signature"}});
  document.sections.push_back(month);
  return document;
}

Document long_table(int row_count) {
  Table table;
  table.caption = "Every check";
  table.columns = {{"Check", "", Align::kText}, {"Pressure", "bar", Align::kDecimal}};
  for (int i = 1; i <= row_count; ++i) {
    const std::string number = std::to_string(i);
    table.rows.push_back({{{"row " + number}, {number + ".5"}}});
  }
  table.rows.push_back({{{"Sum of all"}, {"0.25"}}, RowKind::kTotal});
  Document document;
  document.title = "Long table";
  document.furniture = furniture();
  document.sections.push_back({{Heading{1, "Checks"}, table}});
  return document;
}

}  // namespace benchwarden::print
