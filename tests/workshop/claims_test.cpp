// Entries that were recorded without a PIN, and what their persons answer for them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/test_workshop.h"
#include "workshop/views.h"

namespace benchwarden::workshop {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

const Actor kClaimed{"p3", "technician", false};      ///< says to be p3
const Actor kClaimedManager{"p1", "manager", false};  ///< says to be p1

Told answer(const std::vector<int>& numbers, const std::string& authorship) {
  std::string rows;
  for (const int number : numbers) {
    rows += (rows.empty() ? "" : ",") + (R"({"entry_number":)" + std::to_string(number) + "}");
  }
  return tell("entries-confirmed",
              R"({"authorship":")" + authorship + R"(","confirmed_entries":[)" + rows + "]}");
}

std::vector<std::int64_t> unconfirmed(const TestWorkshop& workshop, const Actor& actor) {
  const auto list = list_unconfirmed(workshop.ports(), actor);
  std::vector<std::int64_t> seqs;
  if (!list) ADD_FAILURE() << list.error().detail;
  for (const base::Json& entry : *list) seqs.push_back(*entry.find("seq")->integer());
  return seqs;
}

std::string shown(const TestWorkshop& workshop, const std::string& id) {
  const auto entry = show_entry(workshop.ports(), *base::parse_uuid(id));
  if (!entry) return entry.error().detail;
  return value_at(*entry, "person_verified") + " " + value_at(*entry, "confirmed_by") + " " +
         value_at(*entry, "authorship");
}

/// Entries 12 and 13 of p3 and 14 of p1 came without a PIN, 15 of p3 with it.
struct Claimed {
  TestWorkshop workshop;
  std::string first = workshop.enter(drain("w1", "10"), kClaimed);
  std::string second = workshop.enter(drain("w1", "20"), kClaimed);
  std::string managers = workshop.enter(drain("w1", "30"), kClaimedManager);
  std::string verified = workshop.enter(drain("w1", "40"), kTechnician);
};

TEST(Claims, AreListedToTheirPersonAndToWhoLooksAfterTheBook) {
  const Claimed book;
  EXPECT_THAT(unconfirmed(book.workshop, kTechnician), ElementsAre(12, 13));
  EXPECT_THAT(unconfirmed(book.workshop, kManager), ElementsAre(12, 13, 14));
  EXPECT_THAT(unconfirmed(book.workshop, kInspector), ElementsAre(12, 13, 14));
}

TEST(Claims, AreShownWithWhatTheirPersonAnswered) {
  const Claimed book;
  EXPECT_EQ(shown(book.workshop, book.first), "false null null");
  EXPECT_EQ(shown(book.workshop, book.verified), "true null null");
  book.workshop.enter(answer({12}, "mine"), kTechnician);      // 16
  book.workshop.enter(answer({13}, "not-mine"), kTechnician);  // 17
  EXPECT_EQ(shown(book.workshop, book.first), R"(false 16 "mine")");
  EXPECT_EQ(shown(book.workshop, book.second), R"(false 17 "not-mine")");
  EXPECT_THAT(unconfirmed(book.workshop, kTechnician), IsEmpty());
  EXPECT_EQ(book.workshop.volume_ml("w1"), "100") << "what was disowned counts";
}

TEST(Claims, AreOpenAgainOnceTheAnswerIsStruckOut) {
  const Claimed book;
  const std::string wrong = book.workshop.enter(answer({12, 13}, "not-mine"), kTechnician);
  EXPECT_THAT(faults_of(book.workshop.send(strike_out(wrong), kManager)),
              ElementsAre("/corrects others_entry"));
  EXPECT_THAT(faults_of(book.workshop.send(strike_out(wrong), kClaimed)),
              ElementsAre("/corrects pin_needed"));
  book.workshop.enter(strike_out(wrong), kTechnician);
  EXPECT_THAT(unconfirmed(book.workshop, kTechnician), ElementsAre(12, 13));
  EXPECT_EQ(shown(book.workshop, book.first), "false null null");
  book.workshop.enter(answer({12}, "mine"), kTechnician);
}

TEST(Claims, OfCorrectionsAreAnsweredForLikeOthers) {
  const Claimed book;
  const std::string strike = book.workshop.enter(strike_out(book.verified), kClaimed);  // 16
  EXPECT_THAT(unconfirmed(book.workshop, kTechnician), ElementsAre(12, 13, 16));
  book.workshop.enter(answer({16}, "mine"), kTechnician);
  EXPECT_EQ(shown(book.workshop, strike), R"(false 17 "mine")");
}

TEST(Claims, AreAnsweredForOnceWhenTheAnswerIsSentAgain) {
  const Claimed book;
  const Told told = answer({12}, "mine");
  const auto first = receipt_of(book.workshop.send(told, kTechnician));
  const auto again = receipt_of(book.workshop.send(told, kTechnician));
  EXPECT_TRUE(again.already_there);
  EXPECT_EQ(again.seq, first.seq);
}

TEST(Claims, AreFoldedAnewAsTheyWereKept) {
  Claimed book;
  book.workshop.enter(answer({12}, "not-mine"), kTechnician);
  ASSERT_TRUE(book.workshop.ports().live.keep().ok());
  book.workshop.close();
  book.workshop.open();
  EXPECT_EQ(shown(book.workshop, book.first), R"(false 16 "not-mine")");
  const auto refolded = refold(book.workshop.ports().book, real_definitions().catalog, Viewpoint{});
  ASSERT_TRUE(refolded.ok());
  EXPECT_EQ(refolded->snapshot(), book.workshop.ports().live.view()->snapshot());
}

TEST(Claims, AreSeenAsTheyStoodFromAnEarlierSizeOfTheBook) {
  const Claimed book;
  book.workshop.enter(answer({12, 13}, "mine"), kTechnician);  // 16
  Viewpoint before;
  before.known_at = 15;
  const auto state = refold(book.workshop.ports().book, real_definitions().catalog, before);
  ASSERT_TRUE(state.ok());
  EXPECT_THAT(state->claims().open(), ElementsAre(12, 13, 14));
}

}  // namespace
}  // namespace benchwarden::workshop
