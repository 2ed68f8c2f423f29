#include <gtest/gtest.h>

#include <set>

#include "tallies/facts.h"
#include "tallies/random_book.h"
#include "tallies/state_builder.h"

namespace benchwarden::tallies {
namespace {

entries::Told told_of_everything() {
  const entries::List points{{{{"at", entries::Text{"x"}}, {"on", base::CivilDate{2025, 1, 1}}},
                              {{"level", quantities::Quantity{{7}, quantities::find_unit("l")}}},
                              {}}};
  return {"gas-use",
          {number_field("a_count", -62'500, "1"),
           {"list", points},
           id_field("gauge", "g1"),
           text_field("note", ""),
           code_field("outcome", "passed"),
           {"sampled_on", base::CivilDate{2024, 2, 29}},
           text_field("words", "Fass №1"),
           number_field("z_volume", 1, "ml")}};
}

TEST(Record, TellsOneFieldAsAllUnpackedWouldTellIt) {
  const Record record(day(1), 1, entries::Outcome::kRecorded, told_of_everything());
  const entries::Fields fields = record.fields();
  EXPECT_EQ(fields, told_of_everything().fields);
  std::set<std::string> names{"", "a", "at", "level", "missing", "z"};
  for (const entries::Field& field : fields) names.insert(field.name);
  for (const std::string& name : names) {
    SCOPED_TRACE(name);
    EXPECT_EQ(record.has(name), entries::find_field(fields, name) != nullptr);
    EXPECT_EQ(record.word(name), word(fields, name));
    for (const char* unit : {"1", "ml", "l"}) {
      const auto measured = measure(fields, name, unit);
      EXPECT_EQ(record.measure(name, unit), measured);
      EXPECT_EQ(record.decimal(name, unit),
                measured ? std::optional(measured->value) : std::nullopt);
    }
    const auto* quantity = entries::find_field_as<quantities::Quantity>(fields, name);
    EXPECT_EQ(record.quantity(name), quantity == nullptr ? std::nullopt : std::optional(*quantity));
    const auto* date = entries::find_field_as<base::CivilDate>(fields, name);
    EXPECT_EQ(record.date(name), date == nullptr ? std::nullopt : std::optional(*date));
  }
}

TEST(Record, MeasuresNothingBeyondAMillionOfAUnit) {
  const std::int64_t million = 1'000'000'000;
  const Record record(
      day(1), 1, {},
      {"k", {number_field("in", million, "ml"), number_field("out", million + 1, "ml")}});
  EXPECT_TRUE(record.measure("in", "ml"));
  EXPECT_FALSE(record.measure("out", "ml"));
}

RecordList::Places places_where(const RecordList& records, bool (*holds)(const Record&)) {
  RecordList::Places found;
  for (std::uint32_t place = 0; place < records.size(); ++place) {
    if (holds(records[place])) found.push_back(place);
  }
  return found;
}

bool was_in_service(const RecordList& records, base::Instant at) {
  bool in_service = true;
  for (const Record& record : records) {
    if (record.at >= at || record.struck || record.outcome == entries::Outcome::kRecorded) continue;
    in_service = record.outcome == entries::Outcome::kPassed;
  }
  return in_service;
}

/// How many records there were.
std::size_t expect_found(const RecordList& records) {
  EXPECT_EQ(records.deciding(), places_where(records, [](const Record& record) {
              return record.outcome != entries::Outcome::kRecorded;
            }));
  std::size_t of_all_kinds = 0;
  std::set<std::string> kinds;
  for (const Record& record : records) kinds.emplace(std::string_view(record.kind));
  for (const std::string& kind : kinds) {
    std::size_t before = 0;
    for (const std::uint32_t place : records.of_kind(kind)) {
      EXPECT_EQ(records[place].kind, kind);
      EXPECT_GE(place, before) << "ascending";
      before = place + 1;
    }
    of_all_kinds += records.of_kind(kind).size();
  }
  EXPECT_EQ(of_all_kinds, records.size());
  for (int hours = 0; hours < 2'000; hours += 97) {
    EXPECT_EQ(in_service_before(records, hour(hours)), was_in_service(records, hour(hours)));
  }
  return records.size();
}

TEST(RecordsOfAnyBook, LieWhereTheirKindAndTheirOutcomeAreLookedUp) {
  std::size_t seen = 0;
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const State state = fold(random_book(seed, 300, Amending::kMany).steps);
    const auto again = State::from_snapshot(state.snapshot());
    ASSERT_TRUE(again.ok());
    for (const State* one : {&state, &*again}) {
      for (const auto& [thing_class, by_id] : one->records().all()) {
        for (const auto& [id, records] : by_id) seen += expect_found(records);
      }
    }
    if (HasFailure()) break;
  }
  EXPECT_GT(seen, 1'000U);
}

}  // namespace
}  // namespace benchwarden::tallies
