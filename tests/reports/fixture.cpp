#include "reports/fixture.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>

#include "reports/waste_month_document.h"

namespace benchwarden::reports {
namespace {

/// Lives as long as the test program, since data files only point to their bytes.
const std::map<std::string, std::string>& all_files() {
  static const std::map<std::string, std::string> files = [] {
    std::map<std::string, std::string> read;
    const std::filesystem::path top(BENCHWARDEN_TOP);
    for (const char* folder : {"reports", "forms/definitions"}) {
      for (const auto& item : std::filesystem::recursive_directory_iterator(top / folder)) {
        if (!item.is_regular_file()) continue;
        std::ifstream stream(item.path(), std::ios::binary);
        read.emplace(item.path().lexically_relative(top).generic_string(),
                     std::string(std::istreambuf_iterator<char>(stream), {}));
      }
    }
    return read;
  }();
  return files;
}

entries::Entry entry_of(const Written& written, std::uint64_t seq) {
  const std::string& recorded =
      written.recorded_at.empty() ? written.occurred_at : written.recorded_at;
  entries::Entry entry;
  entry.content.id = base::make_uuid7(base::Instant{0}, {static_cast<std::uint8_t>(seq)});
  entry.content.kind = written.kind;
  entry.content.occurred_at = *base::parse_rfc3339(written.occurred_at);
  entry.content.fields = written.fields;
  entry.signature.person = written.person.id;
  entry.signature.person_verified = written.person.verified;
  entry.seq = seq;
  entry.recorded_at = at(recorded);
  return entry;
}

void set(entries::Fields& fields, const entries::Field& changed) {
  std::erase_if(fields, [&](const entries::Field& field) { return field.name == changed.name; });
  fields.push_back(changed);
  std::sort(fields.begin(), fields.end(),
            [](const entries::Field& a, const entries::Field& b) { return a.name < b.name; });
}

}  // namespace

base::Instant at(std::string_view rfc3339) { return base::parse_rfc3339(rfc3339)->instant; }

base::Zone berlin() { return *base::Zone::find("Europe/Berlin"); }

quantities::Quantity measured(std::string_view unit, std::int64_t thousandths) {
  return {base::Decimal{thousandths}, quantities::find_unit(unit)};
}

entries::Field text(const std::string& name, const std::string& value) {
  return {name, entries::Text{value}};
}

entries::Field code(const std::string& name, const std::string& value) {
  return {name, entries::Code{value}};
}

entries::Field number(const std::string& name, std::string_view unit, std::int64_t thousandths) {
  return {name, measured(unit, thousandths)};
}

entries::Amount volume_ml(std::int64_t thousandths) {
  return {quantities::Microlitres(thousandths), std::nullopt};
}

entries::Amount mass_g(std::int64_t thousandths) {
  return {std::nullopt, quantities::Milligrams(thousandths)};
}

base::DataFiles project_files(const std::string& folder) {
  base::DataFiles files;
  for (const auto& [path, bytes] : all_files()) {
    if (path.starts_with(folder)) files.push_back({path, bytes});
  }
  return files;
}

const ReportData& project_data() {
  static const auto loaded = load_report_data(project_files("reports/"));
  return *loaded;
}

std::uint64_t BookUnderTest::enter(const Written& written) {
  const entries::Entry entry = entry_of(written, ++size_);
  entries_.push_back({entry, {}, written.fields, false});
  standing_.emplace(entry.seq, written.effects);
  state_.apply(tallies::Posting{entry.seq, entry.content.occurred_at.instant, entry.recorded_at,
                                written.person.verified, written.effects});
  return entry.seq;
}

std::uint64_t BookUnderTest::amend(const Amended& amended) {
  RecordedEntry& target = *std::find_if(
      entries_.begin(), entries_.end(),
      [&](const RecordedEntry& recorded) { return recorded.entry.seq == amended.target; });
  const bool struck = amended.changes.empty();
  entries::Fields fields = amended.changes;
  set(fields, code("action", struck ? "struck-out" : "corrected"));
  entries::Entry correction =
      entry_of({"correction", amended.recorded_at, fields, {}, "", amended.person}, ++size_);
  correction.content.corrects = target.entry.content.id;
  correction.content.reason = amended.reason;
  target.corrections.push_back(correction);
  target.struck = target.struck || struck;
  for (const entries::Field& field : amended.changes) set(target.effective, field);
  state_.apply(tallies::Amendment{correction.seq, correction.recorded_at, amended.target,
                                  target.entry.content.occurred_at.instant, struck,
                                  standing_.at(amended.target), amended.effects,
                                  amended.person.verified});
  standing_.at(amended.target) = amended.effects;
  return correction.seq;
}

std::uint64_t BookUnderTest::put(const std::string& thing_class, const std::string& id,
                                 const entries::Fields& attributes,
                                 const std::string& occurred_at) {
  entries::Fields fields = attributes;
  set(fields, code("thing_class", thing_class));
  set(fields, {"thing", entries::Id{id}});
  set(fields, code("act", "added"));
  return enter({"register-change",
                occurred_at,
                fields,
                {entries::Changes{thing_class, id, entries::RegisterAct::kAdded, attributes}}});
}

std::uint64_t BookUnderTest::drain(const std::string& container, std::int64_t microlitres,
                                   const std::string& occurred_at, const std::string& recorded_at,
                                   const Person& person) {
  return enter({"oil-drained",
                occurred_at,
                {{"container", entries::Id{container}}, number("volume_ml", "ml", microlitres)},
                {entries::Adds{container, volume_ml(microlitres)}},
                recorded_at,
                person});
}

std::vector<RecordedEntry> BookUnderTest::entries_of(const std::string& kind) const {
  std::vector<RecordedEntry> found;
  for (const RecordedEntry& recorded : entries_) {
    if (recorded.entry.content.kind == kind) found.push_back(recorded);
  }
  return found;
}

BookUnderTest workshop_book() {
  BookUnderTest book;
  book.put("workshop", "site",
           {text("address", "4 Quay Lane, Saltmarsh Haven"), text("name", "Saltmarsh Damper Works"),
            text("site_reference", "SM-0417"), text("time_zone", "Europe/Berlin")});
  book.put("stream", "oil",
           {code("counted_by", "volume"), number("density_kg_m3", "kg_m3", 870'000),
            text("density_source", "maker's data sheet"), code("hazardous", "yes"),
            text("low_code", "13 01 10"), text("name", "Used damper oil")});
  book.put("stream", "rags",
           {code("counted_by", "mass"), code("hazardous", "yes"), text("low_code", "15 02 02"),
            text("name", "Oily rags")});
  const auto container = [&](const std::string& id, const std::string& name,
                             const std::string& stream, std::int64_t litres,
                             const std::string& counts) {
    book.put("container", id,
             {number("capacity_l", "l", litres * 1'000),
              code("counts_waste", counts),
              text("name", name),
              {"stream", entries::Id{stream}},
              number("working_limit_percent", "percent", 90'000)});
  };
  container("w1", "Oil drum", "oil", 205, "yes");
  container("w2", "Oil can", "oil", 60, "yes");
  container("bin", "Rag bin", "rags", 50, "no");
  container("drum", "Rag drum", "rags", 120, "yes");
  book.put("carrier", "k1", {text("name", "Harbour Haulage")});
  return book;
}

BookUnderTest october_book() {
  using entries::CollectionStage;
  BookUnderTest book = workshop_book();
  book.drain("w1", 10'000'000, "2026-09-20T10:00:00+02:00");
  const auto slip = book.drain("w1", 620'000, "2026-10-03T09:00:00+02:00");
  book.amend({slip,
              "2026-10-04T08:30:00+02:00",
              "slip of the keypad",
              {number("volume_ml", "ml", 62'000)},
              {entries::Adds{"w1", volume_ml(62'000)}}});
  book.drain("w2", 350'500, "2026-10-10T11:00:00+02:00");
  book.enter({"rag-bin",
              "2026-10-12T16:00:00+02:00",
              {code("bin_act", "added")},
              {entries::Adds{"bin", mass_g(1'250'000)}}});
  book.enter({"rag-bin",
              "2026-10-13T17:00:00+02:00",
              {code("bin_act", "emptied")},
              {entries::Moves{"bin", "drum", mass_g(1'250'000)}}});
  const auto undone = book.drain("w1", 100'000, "2026-10-15T10:00:00+02:00");
  book.amend({undone, "2026-10-15T10:00:05+02:00", "undone at once", {}, {}, {"p1", true}});
  book.drain("w1", 100'000, "2026-10-18T12:00:00+02:00", "", {"p3", false});
  book.enter({"level-reading",
              "2026-10-20T08:00:00+02:00",
              {code("reading_method", "dip")},
              {entries::Reads{"w1", volume_ml(10'400'000)}}});
  book.enter({"transfer",
              "2026-10-22T08:00:00+02:00",
              {},
              {entries::Moves{"w2", "w1", volume_ml(200'000)}}});
  book.enter(
      {"collection",
       "2026-10-28T10:00:00+01:00",
       {text("document_number", "CN-17")},
       {entries::Takes{
           "c1", CollectionStage::kTaken, "k1", "CN-17", {{"w1", volume_ml(5'000'000), false}}}}});
  book.drain("w2", 40'000, "2026-10-31T23:30:00+01:00", "2026-11-02T08:10:00+01:00");
  book.drain("w2", 7'000, "2026-11-01T00:30:00+01:00");
  return book;
}

Basis basis_at(std::string_view as_of) {
  Basis basis{berlin(), 24, {}, at(as_of), at(as_of)};
  basis.book_root.fill(0xAB);
  return basis;
}

WasteMonthFigures figures_of(const BookUnderTest& book, base::CivilMonth month,
                             std::string_view as_of) {
  FormTexts forms;
  forms.titles = {{"oil-drained", "Oil drained"}, {"oil-drained/volume_ml", "Volume"}};
  return make_waste_month({book.state(),
                           month,
                           basis_at(as_of),
                           book.entries(),
                           {{"p1", "Bench A"}, {"p2", "Office"}},
                           forms});
}

document::Document october() {
  return waste_month_document(figures_of(october_book(), kOctober), project_data());
}

document::Table table(const document::Document& document, const std::string& name) {
  for (const document::Table& each : blocks_of<document::Table>(document)) {
    if (each.name == name) return each;
  }
  ADD_FAILURE() << "no table " << name;
  return {};
}

std::vector<std::string> texts(const document::Row& row) {
  std::vector<std::string> all;
  for (const document::Cell& cell : row.cells) all.push_back(cell.text);
  return all;
}

}  // namespace benchwarden::reports
