#include "reports/waste_month_document.h"

#include <cassert>

#include "base/text.h"
#include "reports/number_text.h"
#include "reports/waste_month_tables.h"
#include "reports/waste_words.h"

namespace benchwarden::reports {
namespace {

constexpr std::string_view kReport = "waste-month";

std::string late_line(const MonthParts& parts, const EntryFigures& entry) {
  return parts.wording.text("quality.late_line", late_values(parts, entry));
}

/// The name alone: the sentence says what is to be said of it.
ReportWording::Values claim_values(const MonthParts& parts, const EntryFigures& entry) {
  return {{"entry", count_text(entry.seq)},
          {"kind", parts.texts.kind(entry.kind)},
          {"occurred", time_text(entry.occurred_at)},
          {"person", parts.texts.person({entry.person.id, true})}};
}

std::string unconfirmed_line(const MonthParts& parts, const EntryFigures& entry) {
  return parts.wording.text("quality.unconfirmed_line", claim_values(parts, entry));
}

std::string disowned_line(const MonthParts& parts, const EntryFigures& entry) {
  ReportWording::Values values = claim_values(parts, entry);
  values.emplace_back("by", count_text(entry.person.answer->by));
  return parts.wording.text("quality.disowned_line", values);
}

std::string earlier_line(const MonthParts& parts, const EarlierFigures& earlier) {
  ReportWording::Values values = {{"entry", count_text(earlier.seq)},
                                  {"occurred", time_text(earlier.occurred_at)},
                                  {"recorded", time_text(earlier.recorded_at)}};
  if (earlier.corrected_by == 0) return parts.wording.text("quality.for_earlier_line", values);
  values.emplace_back("by", count_text(earlier.corrected_by));
  return parts.wording.text("quality.corrected_earlier_line", values);
}

std::string register_line(const MonthParts& parts, const RegisterFigures& change) {
  std::vector<std::string> labels;
  for (const std::string& field : change.fields) {
    labels.push_back(parts.texts.label("register-change/" + field));
  }
  return parts.wording.text(
      "quality.register_line",
      {{"entry", count_text(change.by.seq)},
       {"class", parts.texts.label("register-change/thing_class/" + change.thing_class)},
       {"thing", change.thing},
       {"fields", base::join(labels, ", ")},
       {"recorded", time_text(change.by.recorded_at)},
       {"person", parts.texts.person(change.by.person)}});
}

std::string contaminated_line(const MonthParts& parts, const ContaminatedFigures& contaminated) {
  return parts.wording.text(
      "quality.contaminated_line",
      {{"entry", count_text(contaminated.entry.seq)},
       {"occurred", time_text(contaminated.entry.occurred_at)},
       {"what", parts.texts.value(contaminated.entry.kind + "/contamination",
                                  entries::Code{contaminated.contamination})},
       {"amount", contaminated.volume ? amount_text(parts.wording, tallies::CountedBy::kVolume,
                                                    *contaminated.volume)
                                      : parts.wording.text("word.no_figure")},
       {"thing", parts.texts.thing(contaminated.container, contaminated.container_name)}});
}

std::string between_line(const MonthParts& parts, const BetweenStreamsFigures& between) {
  return parts.wording.text("quality.between_line",
                            {{"entry", count_text(between.entry.seq)},
                             {"kind", parts.texts.kind(between.entry.kind)},
                             {"occurred", time_text(between.entry.occurred_at)},
                             {"from", parts.texts.thing(between.from, between.from_name)},
                             {"from_stream", between.from_stream},
                             {"to", parts.texts.thing(between.to, between.to_name)},
                             {"to_stream", between.to_stream}});
}

std::string below_zero_line(const MonthParts& parts, const OddLevelFigures& odd) {
  const ReportWording::Values values = {
      {"thing", parts.texts.thing(odd.container, odd.container_name)},
      {"amount", amount_text(parts.wording, odd.counted_by, odd.amount)}};
  return odd.counts_waste ? parts.wording.text("quality.below_zero_line", values)
                          : parts.wording.text("quality.below_zero_bin_line", values);
}

std::string retired_line(const MonthParts& parts, const OddLevelFigures& odd) {
  const std::string thing = parts.texts.thing(odd.container, odd.container_name);
  if (odd.amount == 0) {
    return parts.wording.text("quality.retired_unmeasured_line", {{"thing", thing}});
  }
  return parts.wording.text(
      "quality.retired_line",
      {{"thing", thing}, {"amount", amount_text(parts.wording, odd.counted_by, odd.amount)}});
}

/// One line for each item, or one that says that there is none.
template <class Item, class ToLine>
void put_lines(document::NoteBox& box, const MonthParts& parts, const std::string& what,
               const std::vector<Item>& items, ToLine to_line) {
  if (items.empty()) box.lines.push_back(parts.wording.text("quality.none", {{"what", what}}));
  for (const Item& item : items) box.lines.push_back(to_line(parts, item));
}

Blocks quality_blocks(const MonthParts& parts) {
  const QualityFigures& quality = parts.figures.quality;
  const ReportWording& wording = parts.wording;
  document::NoteBox box;
  box.title = wording.text("quality.title");
  put_lines(box, parts, wording.text("quality.late"), quality.late, late_line);
  put_lines(box, parts, wording.text("quality.corrected"), quality.corrections, corrected_line);
  put_lines(box, parts, wording.text("quality.unconfirmed"), quality.unconfirmed, unconfirmed_line);
  put_lines(box, parts, wording.text("quality.disowned"), quality.disowned, disowned_line);
  put_lines(box, parts, wording.text("quality.for_earlier"), quality.for_earlier_months,
            earlier_line);
  put_lines(box, parts, wording.text("quality.register"), quality.register_changes, register_line);
  put_lines(box, parts, wording.text("quality.contaminated"), quality.contaminated,
            contaminated_line);
  put_lines(box, parts, wording.text("quality.between_streams"), quality.between_streams,
            between_line);
  put_lines(box, parts, wording.text("quality.below_zero"), quality.below_zero, below_zero_line);
  put_lines(box, parts, wording.text("quality.retired"), quality.retired_not_empty, retired_line);
  return {std::move(box)};
}

Blocks method_blocks(const MonthParts& parts) {
  const ReportWording& wording = parts.wording;
  const auto small = [](std::string text) {
    return document::Paragraph{std::move(text), document::ParagraphStyle::kSmall};
  };
  Blocks blocks{small(wording.text("methods.month", {{"zone", parts.figures.frame.zone}})),
                small(wording.text("methods.arisen")),
                small(wording.text("methods.rounding")),
                small(wording.text("methods.balance")),
                small(wording.text("methods.late")),
                small(wording.text("methods.register",
                                   {{"size", count_text(parts.figures.frame.book_size)}})),
                small(wording.text("methods.no_verdict")),
                small(tree_head_line(parts.figures.frame, wording))};
  for (std::string& line : pack_lines(parts.figures.frame, wording)) {
    blocks.push_back(small(std::move(line)));
  }
  return blocks;
}

std::vector<std::string> subject_lines(const MonthParts& parts) {
  const WasteMonthFigures& figures = parts.figures;
  const ReportWording& wording = parts.wording;
  std::vector<std::string> lines = site_lines(figures.frame, wording);
  lines.push_back(
      wording.text("subject.month", {{"month", wording.month(figures.month)},
                                     {"first", base::format_date(base::first_day(figures.month))},
                                     {"last", base::format_date(base::last_day(figures.month))},
                                     {"zone", figures.frame.zone}}));
  const std::string as_of = time_text(figures.frame.as_of);
  if (figures.frame.book_size == 0) {
    lines.push_back(wording.text("subject.empty_book"));
  } else if (figures.month_state == MonthState::kRunning) {
    lines.push_back(wording.text("subject.month_not_over", {{"as_of", as_of}}));
  } else if (figures.month_state == MonthState::kNotBegun) {
    lines.push_back(wording.text("subject.month_not_begun", {{"as_of", as_of}}));
  }
  for (std::string& line : book_lines(figures.frame, wording)) lines.push_back(std::move(line));
  return lines;
}

Blocks blocks_of(const MonthParts& parts, const SectionDefinition& section,
                 const ReportData& data) {
  if (section.id == "figures") return figure_blocks(parts, data);
  if (section.id == "streams") return stream_blocks(parts, section);
  if (section.id == "levels") return level_blocks(parts, section);
  if (section.id == "collections") return collection_blocks(parts, section);
  if (section.id == "balance") return balance_blocks(parts, section);
  if (section.id == "differences") return difference_blocks(parts, section);
  if (section.id == "quality") return quality_blocks(parts);
  if (section.id == "closing") return closing_blocks(parts);
  if (section.id == "methods") return method_blocks(parts);
  if (section.id == "cautions") return caution_blocks(data.definitions.get(kReport), data);
  if (section.id == "signature") return signature_blocks(parts.wording);
  if (section.id == "charts") return chart_blocks(parts);
  assert(section.id == "entries");
  return entry_blocks(parts, section);
}

}  // namespace

document::Document waste_month_document(const WasteMonthFigures& figures, const ReportData& data) {
  const ReportDefinition& definition = data.definitions.get(kReport);
  const MonthParts parts{figures, data.wording, Texts(figures.frame, data.wording)};
  const std::string period =
      data.wording.text("page.period_month", {{"month", data.wording.month(figures.month)}});
  document::Document document =
      framed_document(figures.frame, definition.title, period, data.wording);
  document.report_name = kReport;
  document.subject_lines = subject_lines(parts);
  for (const SectionDefinition& section : definition.sections) {
    document.sections.push_back(
        titled_section(data.wording, kReport, section.id, blocks_of(parts, section, data)));
  }
  return document;
}

}  // namespace benchwarden::reports
