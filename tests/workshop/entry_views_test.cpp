#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/sha256.h"
#include "workshop/proof_views.h"
#include "workshop/test_workshop.h"
#include "workshop/views.h"

namespace benchwarden::workshop {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using Seqs = std::vector<std::int64_t>;

struct Page {
  Seqs seqs;
  std::optional<std::uint64_t> next_after;
};
Page page_of(const TestWorkshop& workshop, const EntryQuery& query) {
  const auto found = list_entries(workshop.ports(), query);
  if (!found) {
    ADD_FAILURE() << found.error().detail;
    return {};
  }
  Page page{{}, found->next_after};
  for (const base::Json& entry : found->entries) {
    page.seqs.push_back(*entry.find("seq")->integer());
  }
  return page;
}
Seqs seqs_of(const TestWorkshop& workshop, const EntryQuery& query) {
  return page_of(workshop, query).seqs;
}
EntryQuery about(const std::string& subject) {
  EntryQuery query;
  query.subject = subject;
  return query;
}

TEST(EntryList, ComesInPagesInBookOrder) {
  const TestWorkshop workshop;
  EntryQuery query;
  query.limit = 4;
  const Page first = page_of(workshop, query);
  EXPECT_THAT(first.seqs, ElementsAre(1, 2, 3, 4));
  ASSERT_EQ(first.next_after, 4U);
  query.after_seq = *first.next_after;
  EXPECT_THAT(seqs_of(workshop, query), ElementsAre(5, 6, 7, 8));
  query.after_seq = 8;
  const Page last = page_of(workshop, query);
  EXPECT_THAT(last.seqs, ElementsAre(9, 10, 11));
  EXPECT_EQ(last.next_after, std::nullopt);
}

TEST(EntryList, SaysThatThereIsNoNextPageWhenTheLastOneIsJustFull) {
  const TestWorkshop workshop;
  EntryQuery query;
  query.limit = 11;
  const Page all = page_of(workshop, query);
  EXPECT_EQ(all.seqs.size(), 11U);
  EXPECT_EQ(all.next_after, std::nullopt);
}

TEST(EntryList, IsNarrowedByKindAndSubjectTogether) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "10"));                                                   // 12
  workshop.enter(drain("w2", "20"));                                                   // 13
  workshop.enter(tell("transfer", R"({"from_container":"w1","to_container":"w2"})"));  // 14
  EntryQuery query = about("container/w1");
  EXPECT_THAT(seqs_of(workshop, query), ElementsAre(4, 12, 14));
  query.kind = "oil-drained";
  EXPECT_THAT(seqs_of(workshop, query), ElementsAre(12));
  query.subject = std::nullopt;
  EXPECT_THAT(seqs_of(workshop, query), ElementsAre(12, 13));
  EXPECT_THAT(seqs_of(workshop, about("container/w9")), IsEmpty());
}

TEST(EntryList, IsNarrowedToAPersonPageByPage) {
  const TestWorkshop workshop;
  for (int i = 0; i < 3; ++i) {
    workshop.enter(drain("w1", "10"), kTechnician);  // 12, 14, 16
    workshop.enter(drain("w1", "20"));
  }
  EntryQuery query;
  query.person = kTechnician.person;
  query.limit = 2;
  const Page first = page_of(workshop, query);
  EXPECT_THAT(first.seqs, ElementsAre(12, 14));
  ASSERT_EQ(first.next_after, 14U);
  query.after_seq = *first.next_after;
  const Page last = page_of(workshop, query);
  EXPECT_THAT(last.seqs, ElementsAre(16));
  EXPECT_EQ(last.next_after, std::nullopt);
}

TEST(EntryList, TellsNothingOfEntriesThatMayNotBeSeen) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "10"));  // 12, after what set the workshop up
  EntryQuery query;
  query.limit = 1;
  query.shows = [](std::string_view kind) { return kind == "oil-drained"; };
  const Page only = page_of(workshop, query);
  EXPECT_THAT(only.seqs, ElementsAre(12));
  EXPECT_EQ(only.next_after, std::nullopt);
  query.shows = [](std::string_view) { return false; };
  const Page none = page_of(workshop, query);
  EXPECT_THAT(none.seqs, IsEmpty());
  EXPECT_EQ(none.next_after, std::nullopt);
}

TEST(EntryList, LooksOnUntilAPageIsFullHoweverFarThatIs) {
  const TestWorkshop workshop;
  for (int i = 0; i < 520; ++i) workshop.enter(drain("w2", "1"));
  workshop.enter(drain("w1", "10"), kTechnician);  // 532
  EntryQuery query;
  query.person = kTechnician.person;
  query.limit = 1;
  EXPECT_THAT(seqs_of(workshop, query), ElementsAre(532));
}

TEST(EntryList, ShowsACorrectionUnderBothContainersItIsAbout) {
  const TestWorkshop workshop;
  const std::string slip = workshop.enter(drain("w1", "620"));  // 12
  workshop.enter(correct(slip, R"({"container":"w2"})"));       // 13
  EXPECT_THAT(seqs_of(workshop, about("container/w1")), ElementsAre(4, 12, 13));
  EXPECT_THAT(seqs_of(workshop, about("container/w2")), ElementsAre(5, 13));
}

TEST(EntryList, ShowsLaterCorrectionsUnderTheContainerAnEarlierOneMovedTheEntryTo) {
  const TestWorkshop workshop;
  const std::string slip = workshop.enter(drain("w1", "620"));  // 12
  workshop.enter(correct(slip, R"({"container":"w2"})"));       // 13
  workshop.enter(correct(slip, R"({"volume_ml":62})"));         // 14
  workshop.enter(strike_out(slip));                             // 15
  EXPECT_THAT(seqs_of(workshop, about("container/w2")), ElementsAre(5, 13, 14, 15));
  EXPECT_THAT(seqs_of(workshop, about("container/w1")), ElementsAre(4, 12, 13, 14, 15));
}

TEST(EntryList, ShowsACorrectionUnderTheContainerItTakesTheEntryAwayFrom) {
  const TestWorkshop workshop;
  const std::string slip = workshop.enter(drain("w1", "620"));  // 12
  workshop.enter(correct(slip, R"({"container":"w2"})"));       // 13
  workshop.enter(correct(slip, R"({"container":"w1"})"));       // 14
  EXPECT_THAT(seqs_of(workshop, about("container/w2")), ElementsAre(5, 13, 14));
}

TEST(EntryList, CutsDaysByTheWorkshopsZone) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1", "2026-11-09T22:59:59Z"));  // 12: the 9th in Berlin
  workshop.enter(drain("w1", "2", "2026-11-09T23:00:00Z"));  // 13: the 10th
  workshop.enter(drain("w1", "3", "2026-11-10T22:59:59Z"));  // 14: the 10th
  workshop.enter(drain("w1", "4", "2026-11-10T23:00:00Z"));  // 15: the 11th
  EntryQuery query;
  query.from = base::CivilDate{2026, 11, 10};
  query.to = base::CivilDate{2026, 11, 10};
  EXPECT_THAT(seqs_of(workshop, query), ElementsAre(13, 14));
  query.to = std::nullopt;
  EXPECT_THAT(seqs_of(workshop, query), ElementsAre(13, 14, 15));
}

TEST(EntryView, CarriesItsLeafHashAndTheCorrectionsBesideIt) {
  const TestWorkshop workshop;
  const std::string slip = workshop.enter(drain("w1", "620"));
  const std::string correction = workshop.enter(correct(slip, R"({"volume_ml":62})"));
  const auto entry = show_entry(workshop.ports(), *base::parse_uuid(slip));
  ASSERT_TRUE(entry.ok());
  EXPECT_EQ(value_at(*entry, "fields/volume_ml"), "620") << "the original stays as recorded";
  EXPECT_EQ(value_at(*entry, "leaf_hash"),
            "\"" + base::to_hex(*workshop.ports().book.leaf_hash(12)) + "\"");
  EXPECT_EQ(value_at(*entry, "person_name"), "\"" + kManager.person + "\"");
  EXPECT_EQ(value_at(*entry, "corrections/0/id"), "\"" + correction + "\"");
  EXPECT_EQ(value_at(*entry, "corrections/0/fields/volume_ml"), "62");
  EXPECT_EQ(value_at(*entry, "corrections/0/reason"), R"("read wrongly")");
  EXPECT_EQ(value_at(*entry, "corrections/1"), "");
}

TEST(EntryView, OfAnUnknownIdIsNotFound) {
  const TestWorkshop workshop;
  const auto entry =
      show_entry(workshop.ports(), *base::parse_uuid("0193619e-0a3b-7c44-8d21-5b0f6c2f1a01"));
  ASSERT_FALSE(entry.ok());
  EXPECT_EQ(entry.error().code, base::ErrorCode::kNotFound);
}

TEST(Checkpoint, IsTheHeadOfTheTree) {
  const TestWorkshop workshop;
  const base::Json before = *show_checkpoint(workshop.ports());
  EXPECT_EQ(value_at(before, "size"), "11");
  workshop.enter(drain("w1", "1"));
  const base::Json after = *show_checkpoint(workshop.ports());
  EXPECT_EQ(value_at(after, "size"), "12");
  EXPECT_NE(value_at(after, "root"), value_at(before, "root"));
}

}  // namespace
}  // namespace benchwarden::workshop
