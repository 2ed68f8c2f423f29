#include "reports/number_text.h"
#include "reports/table_lines.h"
#include "reports/waste_month_tables.h"
#include "reports/waste_words.h"

namespace benchwarden::reports {
namespace {

using tallies::CountedBy;
using tallies::Movement;

void put_movement(TableLine& line, const Movement& movement) {
  line.cells["opening"] = number_cell(movement.opening);
  line.cells["added"] = number_cell(movement.added);
  line.cells["moved_in"] = number_cell(movement.moved_in);
  line.cells["moved_out"] = number_cell(movement.moved_out);
  line.cells["taken"] = number_cell(movement.taken);
  line.cells["emptied"] = number_cell(movement.emptied);
  line.cells["corrections"] = number_cell(movement.corrections);
  line.cells["closing"] = number_cell(movement.closing);
}

void add(Movement& total, const Movement& movement) {
  total.opening += movement.opening;
  total.added += movement.added;
  total.moved_in += movement.moved_in;
  total.moved_out += movement.moved_out;
  total.taken += movement.taken;
  total.emptied += movement.emptied;
  total.corrections += movement.corrections;
  total.closing += movement.closing;
}

/// Containers of one way of counting, stream by stream.
class BalanceLines {
 public:
  explicit BalanceLines(const MonthParts& parts) : parts_(parts) {}

  void container(const ContainerFigures& container) {
    if (lines_.empty() || container.stream.id != stream_.id) begin_stream(container.stream);
    TableLine line;
    line.name = container.id;
    line.anchor = balance_anchor(container.id);
    line.cells["container"] = linked(text_cell(container_text(parts_, container), container.id),
                                     entries_link(parts_, container.id));
    put_movement(line, container.movement);
    lines_.push_back(std::move(line));
    add(total_, container.movement);
    ++containers_;
  }

  std::vector<TableLine> take() {
    end_stream();
    return std::move(lines_);
  }

 private:
  void begin_stream(const tallies::StreamFacts& stream) {
    end_stream();
    stream_ = stream;
    total_ = {};
    containers_ = 0;
    TableLine note;
    note.kind = document::RowKind::kNote;
    note.name = stream.id;
    note.anchor = stream_anchor(stream.id);
    note.cells["container"] = text_cell(stream_text(parts_.wording, stream));
    lines_.push_back(std::move(note));
  }

  /// One container needs no sum.
  void end_stream() {
    if (containers_ < 2) return;
    TableLine line;
    line.kind = document::RowKind::kTotal;
    line.name = stream_.id + " total";
    line.cells["container"] =
        text_cell(parts_.wording.text("balance.total", {{"stream", stream_.name}}), line.name);
    put_movement(line, total_);
    lines_.push_back(std::move(line));
  }

  const MonthParts& parts_;
  std::vector<TableLine> lines_;
  tallies::StreamFacts stream_;
  Movement total_;
  int containers_ = 0;
};

std::string_view unit_of(CountedBy counted_by) {
  return counted_by == CountedBy::kVolume ? "l" : "kg";
}

TableLine difference_line(const MonthParts& parts, const ContainerFigures& container,
                          const ReadingFigures& reading) {
  TableLine line;
  line.name = container.id;
  line.cells["container"] = text_cell(container_text(parts, container), container.id);
  line.cells["read_at"] = text_cell(time_text(reading.at), base::format_rfc3339(reading.at));
  line.cells["entry"] = linked(count_cell(reading.seq), entry_anchor(reading.seq));
  line.cells["reading"] = number_cell(reading.reading);
  line.cells["logged"] = number_cell(reading.logged);
  line.cells["difference"] = number_cell(reading.reading - reading.logged);
  return line;
}

std::vector<TableLine> difference_lines(const MonthParts& parts, CountedBy counted_by) {
  std::vector<TableLine> lines;
  for (const ContainerFigures& container : parts.figures.containers) {
    if (container.stream.counted_by == counted_by && container.reading) {
      lines.push_back(difference_line(parts, container, *container.reading));
    }
  }
  return lines;
}

}  // namespace

std::string balance_anchor(const std::string& container) { return "balance-" + container; }

Blocks balance_blocks(const MonthParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.wording;
  Blocks blocks{document::Paragraph{wording.text("balance.equation")}};
  for (const CountedBy counted_by : {CountedBy::kVolume, CountedBy::kMass}) {
    BalanceLines balance(parts);
    for (const ContainerFigures& container : parts.figures.containers) {
      if (container.stream.counted_by == counted_by) balance.container(container);
    }
    const std::vector<TableLine> lines = balance.take();
    if (lines.empty()) continue;
    const bool volume = counted_by == CountedBy::kVolume;
    const TableWords words{
        volume ? "balance-volume" : "balance-mass",
        volume ? wording.text("balance.caption_volume") : wording.text("balance.caption_mass"), ""};
    blocks.emplace_back(lay_out(section, lines, words, unit_of(counted_by), wording));
  }
  if (blocks.size() == 1) blocks = {document::Paragraph{wording.text("balance.none")}};
  return blocks;
}

Blocks difference_blocks(const MonthParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.wording;
  Blocks blocks{document::Paragraph{wording.text("differences.meaning")}};
  for (const CountedBy counted_by : {CountedBy::kVolume, CountedBy::kMass}) {
    const std::vector<TableLine> lines = difference_lines(parts, counted_by);
    if (lines.empty()) continue;
    const bool volume = counted_by == CountedBy::kVolume;
    const TableWords words{volume ? "differences-volume" : "differences-mass",
                           volume ? wording.text("differences.caption_volume")
                                  : wording.text("differences.caption_mass"),
                           ""};
    blocks.emplace_back(lay_out(section, lines, words, unit_of(counted_by), wording));
  }
  if (blocks.size() == 1) blocks = {document::Paragraph{wording.text("differences.none")}};
  return blocks;
}

}  // namespace benchwarden::reports
