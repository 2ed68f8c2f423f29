#include "workshop/due.h"

#include <gmock/gmock.h>

#include <algorithm>

#include "workshop/due_calendar.h"
#include "workshop/rule_adoption.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

Told planned(const std::string& collection, const std::string& day, const std::string& more = "",
             const std::string& occurred_at = kNow) {
  return tell("collection",
              R"({"collection":")" + collection + R"(","stage":"planned","planned_date":")" + day +
                  "\"" + more + "}",
              occurred_at);
}

Told taken(const std::string& collection) {
  return tell("collection", R"({"collection":")" + collection +
                                R"(","stage":"taken","carrier":"k1","document_number":"D1",)" +
                                R"("loads":[{"container":"w1","mass_kg":0.5}]})");
}

/// Every container that counts waste is due thirty days after its oldest content came in.
const std::string kOwnPack = R"(pack = "ours"
title = "Our rules"
edition = "2026-11-01"
remarks = "Stricter than what the law asks for."
[[rules]]
id = "ours.clock"
kind = "storage-clock"
citation = "our permit, condition 4"
edition = "2026"
confidence = "from-memory"
sentence = "Thirty days."
figures = { limit = { value = "30", unit = "d" } }
)";

/// Nothing is asked for of the regulator in the register, so that plans stand alone.
const std::string kQuiet = R"(pack = "ours"
title = "Our rules"
edition = "2026-11-01"
remarks = "Without intervals."
[[rules]]
id = "own.regulator-interval"
off = true
sentence = "Looked at by the maker's people."
[[rules]]
id = "own.tool-interval"
off = true
sentence = "Looked at by the maker's people."
)";

class Due : public ::testing::Test {
 protected:
  TestWorkshop shop_;
  Due() { put(kQuiet); }

  [[nodiscard]] std::vector<DueItem> items() const {
    auto items = due_items(shop_.ports(), Persons::kById);
    EXPECT_TRUE(items.ok());
    return items ? *std::move(items) : std::vector<DueItem>();
  }
  [[nodiscard]] std::vector<std::string> of_rule(const std::string& rule) const {
    std::vector<std::string> found;
    for (const DueItem& item : items()) {
      if (item.rule == rule) found.push_back(base::format_date(item.day) + " " + item.sentence);
    }
    return found;
  }
  void put(const std::string& pack) const {
    ASSERT_TRUE(
        std::holds_alternative<book::Receipt>(put_local_pack(shop_.ports(), kManager, pack)));
  }
  [[nodiscard]] std::vector<std::string> sentences() const {
    std::vector<std::string> found;
    for (const DueItem& item : items()) {
      if (item.rule == "planned-collection") found.push_back(item.sentence);
    }
    return found;
  }
  [[nodiscard]] std::string calendar() const {
    const auto bytes = due_calendar(shop_.ports());
    EXPECT_TRUE(bytes.ok());
    return bytes ? *bytes : "";
  }
  /// The values of one property, in order.
  [[nodiscard]] std::vector<std::string> values(const std::string& name) const {
    const std::string bytes = calendar();
    const std::string start = "\r\n" + name + ":";
    std::vector<std::string> found;
    for (std::size_t at = 0; (at = bytes.find(start, at)) != std::string::npos;) {
      at += start.size();
      found.push_back(bytes.substr(at, bytes.find("\r\n", at) - at));
    }
    return found;
  }
};

TEST_F(Due, IsNothingInAnEmptyBook) {
  const TestWorkshop empty(TestWorkshop::Register::kEmpty);
  EXPECT_EQ(base::write_json(*show_due(empty.ports())), R"({"today":"2026-11-20","items":[]})");
}

TEST_F(Due, IsACollectionUntilItIsTaken) {
  shop_.enter(planned("c1", "2026-11-30", R"(,"carrier":"k1")"));
  EXPECT_EQ(base::write_json(*show_due(shop_.ports())),
            R"({"today":"2026-11-20","items":[{"day":"2026-11-30","rule":"planned-collection",)"
            R"("subject":"collection/c1","part":"",)"
            R"("sentence":"Collection c1: planned for 30 November 2026",)"
            R"("citation":"Entry 13 of the book","confidence":null,"entry":13}]})");
  shop_.enter(drain("w1", "900"));
  shop_.enter(taken("c1"));
  EXPECT_THAT(sentences(), IsEmpty());
}

TEST_F(Due, IsNoCollectionThatWasRefusedAsAWhole) {
  shop_.enter(planned("c1", "2026-11-30"));
  const std::string refused = shop_.enter(
      tell("collection", R"({"collection":"c1","stage":"not-taken","refused":"no label"})"));
  EXPECT_THAT(sentences(), IsEmpty());
  shop_.enter(strike_out(refused));
  EXPECT_THAT(sentences(), ElementsAre("Collection c1: planned for 30 November 2026"));
}

TEST_F(Due, StandsByDayAndNamesTheContainers) {
  shop_.enter(planned("c2", "2026-12-07"));
  shop_.enter(planned("c1", "2026-11-18",
                      R"(,"loads":[{"container":"w1","volume_ml":100},)"
                      R"({"container":"drum","mass_kg":2}])",
                      "2026-11-16T12:00:00Z"));
  EXPECT_THAT(sentences(), ElementsAre("Collection c1 of Container w1, Container drum: planned for "
                                       "18 November 2026",
                                       "Collection c2: planned for 7 December 2026"));
}

TEST_F(Due, FollowsTheNewestPlanAndItsCorrections) {
  shop_.enter(planned("c1", "2026-11-30"));
  const std::string again = shop_.enter(planned("c1", "2026-12-02"));
  EXPECT_THAT(sentences(), ElementsAre("Collection c1: planned for 2 December 2026"));
  shop_.clock.set(at("2026-11-21T09:00:00Z"));
  shop_.enter(correct(again, R"({"planned_date":"2026-12-03"})"));
  EXPECT_THAT(sentences(), ElementsAre("Collection c1: planned for 3 December 2026"));
  EXPECT_EQ(items().front().last_changed, at("2026-11-21T09:00:00Z"));
  shop_.enter(strike_out(again));
  EXPECT_THAT(sentences(), ElementsAre("Collection c1: planned for 30 November 2026"));
}

TEST_F(Due, IsACalendarWithoutNamesOfPersons) {
  shop_.enter(planned("c1", "2026-11-30"), kTechnician);
  const std::string bytes = calendar();
  EXPECT_THAT(bytes, HasSubstr("NAME:What is due at Saltmarsh Damper Works\r\n"));
  EXPECT_THAT(bytes, HasSubstr("SUMMARY:Collection c1: planned for 30 November 2026\r\n"));
  EXPECT_THAT(bytes, HasSubstr("DTSTART;VALUE=DATE:20261130\r\n"));
  EXPECT_THAT(bytes, HasSubstr("DTSTAMP:20261120T120000Z\r\n"));
  EXPECT_THAT(bytes, Not(HasSubstr("Bench A")));
  EXPECT_THAT(bytes, Not(HasSubstr("p3")));
}

TEST_F(Due, KeepsItsUidWhileTheBookGrowsAndTheDayMoves) {
  shop_.enter(planned("c1", "2026-11-30"));
  const auto uid = values("UID");
  ASSERT_EQ(uid.size(), 1U);
  EXPECT_EQ(uid[0].size(), 36U);
  EXPECT_EQ(uid[0][14], '8') << "UUID version 8, RFC 9562 section 5.8";
  const std::string before = calendar();
  shop_.clock.set(at("2026-11-25T09:00:00Z"));
  shop_.enter(drain("w1", "900"));
  EXPECT_EQ(calendar(), before);
  shop_.enter(planned("c1", "2026-12-02"));
  EXPECT_EQ(values("UID"), uid);
  shop_.enter(planned("c0", "2026-11-29"));
  const auto both = values("UID");
  ASSERT_EQ(both.size(), 2U);
  EXPECT_NE(both[0], uid[0]);
  EXPECT_EQ(both[1], uid[0]);
}

TEST_F(Due, HasUidsOfItsOwnInEachWorkshop) {
  TestWorkshop other;
  shop_.enter(planned("c1", "2026-11-30"));
  other.enter(planned("c1", "2026-11-30"));
  const auto bytes = due_calendar(other.ports());
  ASSERT_TRUE(bytes.ok());
  EXPECT_THAT(*bytes, HasSubstr("\r\nUID:"));
  EXPECT_THAT(*bytes, Not(HasSubstr(values("UID").at(0))));
}

TEST(DueCalendar, IsThereForAnEmptyBook) {
  const TestWorkshop empty(TestWorkshop::Register::kEmpty);
  const auto bytes = due_calendar(empty.ports());
  ASSERT_TRUE(bytes.ok());
  EXPECT_THAT(*bytes, HasSubstr("NAME:What is due\r\n"));
}

TEST_F(Due, IsWhatTheRulesAskForWithSentenceAndCitation) {
  put(kOwnPack);
  EXPECT_THAT(of_rule("ours.clock"), IsEmpty());
  shop_.enter(drain("w1", "900", "2026-11-10T09:00:00+01:00"));
  EXPECT_THAT(of_rule("ours.clock"),
              ElementsAre("2026-12-10 Container w1: its oldest content came in on 2026-11-10; "
                          "30\u00A0days end on 2026-12-10."));
  const auto all = items();
  const auto one = std::find_if(all.begin(), all.end(),
                                [](const DueItem& item) { return item.rule == "ours.clock"; });
  ASSERT_NE(one, all.end());
  EXPECT_EQ(one->subject, "container/w1");
  EXPECT_EQ(one->citation, "our permit, condition 4");
  EXPECT_EQ(one->last_changed, at(kNow));
  EXPECT_EQ(one->confidence, findings::Confidence::kFromMemory);
  // What is not from the text says so in the calendar, too.
  EXPECT_THAT(calendar(), HasSubstr("from memory"));
}

TEST_F(Due, IsRevisedByWhateverMayHaveMovedItsDay) {
  const auto revised = [&] {
    const auto all = items();
    const auto one = std::find_if(all.begin(), all.end(),
                                  [](const DueItem& item) { return item.rule == "ours.clock"; });
    return one == all.end() ? base::Instant{0} : one->last_changed;
  };
  put(kOwnPack);
  const std::string drained = shop_.enter(drain("w1", "900", "2026-11-10T09:00:00+01:00"));
  shop_.clock.set(at("2026-11-21T09:00:00Z"));
  std::string shorter = kOwnPack;
  shorter.replace(shorter.find("\"30\""), 4, "\"20\"");
  put(shorter);
  EXPECT_EQ(revised(), at("2026-11-21T09:00:00Z")) << "by another pack";
  shop_.clock.set(at("2026-11-22T09:00:00Z"));
  shop_.enter(correct(drained, R"({"volume_ml":800})"));
  EXPECT_EQ(revised(), at("2026-11-22T09:00:00Z")) << "by a correction";
}

TEST_F(Due, NamesPersonsForWhoIsSignedInAndNotInTheCalendar) {
  shop_.enter(tell("register-change", R"({"thing_class":"person","thing":"p3","act":"added",)"
                                      R"("competences":[{"competence":"cylinder-handling",)"
                                      R"("valid_until":"2027-01-31"}]})"));
  EXPECT_THAT(base::write_json(*show_due(shop_.ports())),
              HasSubstr("Bench A: the competence for handling cylinders ends on 2027-01-31."));
  EXPECT_THAT(of_rule("own.competence-expiry"),
              ElementsAre("2027-01-31 p3: the competence for handling cylinders ends on "
                          "2027-01-31."));
  EXPECT_THAT(calendar(), Not(HasSubstr("Bench A")));
}

TEST_F(Due, EndsAtTheHorizonAndKeepsWhatHasPassed) {
  put(kOwnPack);
  shop_.enter(drain("w1", "900", "2026-11-10T09:00:00+01:00"));
  const auto count = [&](int days_ahead) {
    const auto items = due_items(shop_.ports(), Persons::kById, days_ahead);
    return std::count_if(items->begin(), items->end(),
                         [](const DueItem& item) { return item.rule == "ours.clock"; });
  };
  EXPECT_EQ(count(20), 1);
  EXPECT_EQ(count(19), 0);
  shop_.clock.set(at("2027-06-01T12:00:00Z"));
  EXPECT_EQ(count(0), 1);
}

TEST_F(Due, StaysWhenItsFindingWasAcknowledged) {
  put(kOwnPack);
  shop_.enter(drain("w1", "900", "2026-10-01T09:00:00+02:00"));
  shop_.enter(tell("finding-acknowledged",
                   R"({"finding":"ours.clock container/w1 over 2026-10-31T23:00:00Z",)"
                   R"("reason_given":"collection ordered"})"));
  EXPECT_EQ(of_rule("ours.clock").size(), 1U);
}

}  // namespace
}  // namespace benchwarden::workshop
