#include "print/block_samples.h"

#include "print/sample.h"

namespace benchwarden::print {
namespace {

using namespace document;  // NOLINT(google-build-using-namespace): the page is made of its types

/// A day in March and one in May 2026, in ms.
constexpr std::int64_t kFirstDay = 20'513 * std::int64_t{86'400'000};
constexpr std::int64_t kLastDay = 20'600 * std::int64_t{86'400'000};

Chart chart_saying(const std::string& text) {
  Chart chart;
  chart.caption = chart.value_label = chart.time_label = text;
  chart.series = {{text, Mark::kDot, Joined::kSolid, {{{kFirstDay, 8'000}, {kLastDay, 4'000}}}}};
  chart.limits = {{text, {2'000}}};
  chart.events = {{text, {kLastDay}}};
  return chart;
}

Table table_saying(const std::string& text) {
  Table table;
  table.caption = table.name = text;
  table.columns = {{text.substr(0, 40), text.substr(0, 10), Align::kText, text},
                   {text.substr(0, 40), "", Align::kText, text}};
  table.rows = {
      {{{text}, {text, text, Emphasis::kStrong, text}}, RowKind::kNormal, {text}, text, text, 1},
      {{{text}}, RowKind::kNote},
      {{{text}, {text}}, RowKind::kTotal}};
  return table;
}

/// A row for each entry, led to by its number, in months of forty rows.
void add_months(Section& section, int rows) {
  for (int first = 1; first <= rows; first += 40) {
    const std::string month = "Month " + std::to_string(first / 40 + 1);
    section.blocks.emplace_back(Heading{1, month});
    section.blocks.emplace_back(Heading{2, "Entries of " + month});
    Table table;
    table.caption = "Every check of " + month;
    table.columns = {{"Entry", "", Align::kNumber}, {"What", ""}, {"Volume", "L", Align::kDecimal}};
    for (int i = first; i < first + 40 && i <= rows; ++i) {
      const std::string number = std::to_string(i);
      Row row{{{number}, {"Suspension oil drained at bench " + number}, {number + ".5"}}};
      row.anchor = "entry-" + number;
      row.entry = static_cast<std::uint64_t>(i);
      table.rows.push_back(std::move(row));
    }
    section.blocks.emplace_back(std::move(table));
  }
}

Checklist walk_round() {
  return {"Walk round the oil store",
          {{"Drums stand in the tray; the tray is dry.", {"yes", "no"}},
           {"Lids and bungs are shut, and stay shut but for filling. The label can be read from "
            "the aisle.",
            {"yes", "no", "not looked at"}},
           {"Pressure of nitrogen cylinder N2", {}, "bar"},
           {"Rag bin emptied", {"yes", "no"}, "initials of who emptied it, and at what time"}}};
}

}  // namespace

BarChart sample_bars(int count) {
  BarChart chart;
  chart.caption = "Used oil collected, by month";
  chart.value_label = "Mass, kg";
  for (int i = 0; i < count; ++i) {
    const int tenths = i % 5 == 3 ? 0 : 1'000 + 317 * (i * 7 % 11);
    chart.bars.push_back({"2026-" + std::to_string(101 + i % 12).substr(1),
                          tenths * std::int64_t{100},
                          std::to_string(tenths / 10) + "." + std::to_string(tenths % 10)});
  }
  return chart;
}

Document every_block_saying(const std::string& text) {
  Document document;
  document.title = document.author = document.language = text;
  document.subject_lines = {text};
  document.furniture.page_of = "{page} of {pages}";
  document.furniture.site = text.substr(0, 200);
  Section section;
  section.blocks.emplace_back(Contents{text, 4});
  for (int level = 1; level <= 4; ++level) section.blocks.emplace_back(Heading{level, text, text});
  for (const auto style :
       {ParagraphStyle::kNormal, ParagraphStyle::kSmall, ParagraphStyle::kCaution}) {
    section.blocks.emplace_back(Paragraph{text, style});
  }
  section.blocks.emplace_back(KeyFigures{{{text, text, text, text, text, text}}, text});
  section.blocks.emplace_back(table_saying(text));
  section.blocks.emplace_back(chart_saying(text));
  section.blocks.emplace_back(BarChart{text, text, {{text, 5'000, text}, {text, 0, text}}});
  section.blocks.emplace_back(NoteBox{text, {text}, text});
  section.blocks.emplace_back(NoteBox{text, {}, text});
  section.blocks.emplace_back(CautionBox{text, {text}, {text}});
  section.blocks.emplace_back(Checklist{text, {{text, {text, text}, text}}});
  section.blocks.emplace_back(SignatureLine{{text}});
  section.blocks.emplace_back(ScanCode{text, {text}});
  section.blocks.emplace_back(EntryIndex{text, text});
  document.sections.push_back(std::move(section));
  return document;
}

Document linked_document(int rows) {
  Document document = sample_document();
  Section front;
  front.blocks.emplace_back(KeyFigures{
      {{"Waste oil drained", "38.62", "L", "38.62", "oil_l", "entry-1"},
       {"Collected", "58.1", "L", "58.1", "collected_l", "entry-" + std::to_string(rows)},
       {"Led nowhere", "7", "L", "7", "nowhere_l", "entry-0"}},
      "month"});
  front.blocks.emplace_back(Contents{"Contents", 2});
  Section hand;
  hand.blocks.emplace_back(Heading{1, "To be filled in", "by-hand"});
  hand.blocks.emplace_back(Heading{2, "In the store"});
  hand.blocks.emplace_back(Heading{3, "On the floor"});
  hand.blocks.emplace_back(Heading{4, "At the tray"});
  hand.blocks.emplace_back(walk_round());
  hand.blocks.emplace_back(ScanCode{"container/w1", {"container/w1", "opens its form in the app"}});
  hand.blocks.emplace_back(Heading{1, "Months"});
  hand.blocks.emplace_back(sample_bars(12));
  Section months;
  add_months(months, rows);
  Section index;
  index.blocks.emplace_back(EntryIndex{"Index of entries", "No entry."});
  document.sections.front().blocks.erase(document.sections.front().blocks.begin());
  document.sections.insert(document.sections.begin(), std::move(front));
  for (Section* section : {&hand, &months, &index}) {
    document.sections.push_back(std::move(*section));
  }
  return document;
}

}  // namespace benchwarden::print
