#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>

#include "tallies/levels.h"
#include "workshop/fold.h"
#include "workshop/random_entries.h"
#include "workshop/views.h"

namespace benchwarden::workshop {
namespace {

tallies::State seen(const TestWorkshop& workshop, const Viewpoint& view) {
  auto state = refold(workshop.ports().book, workshop.ports().definitions.catalog, view);
  if (!state) ADD_FAILURE() << state.error().detail;
  return *std::move(state);
}

/// A correction counts where its target stands; the register acts in the order of the book.
bool is_seen(const book::Book& book, const entries::Entry& entry, const Viewpoint& view) {
  if (entry.seq > view.known_at) return false;
  const entries::Entry counted =
      entry.content.corrects ? *book.entry(*entry.content.corrects) : entry;
  return counted.content.kind == "register-change" ||
         counted.content.occurred_at.instant <= view.as_of;
}

/// A second book that was only ever told what the viewpoint can see. It is numbered differently,
/// so numbers are not compared.
void copy_seen(const TestWorkshop& from, TestWorkshop& to, const Viewpoint& view) {
  const book::Book& book = from.ports().book;
  const auto copied = book.each(1, [&](const entries::Entry& entry) -> base::Status<> {
    if (!is_seen(book, entry, view)) return base::Done{};
    to.clock.set(entry.recorded_at);
    const auto receipt = to.ports().book.append({entry.content, entry.signature, {}});
    if (!receipt) return receipt.error();
    return base::Done{};
  });
  ASSERT_TRUE(copied.ok()) << copied.error().detail;
}

void expect_same_levels(const tallies::State& state, const tallies::State& expected) {
  const base::Instant end{INT64_MAX};
  const auto levels = tallies::levels(state, end);
  const auto wanted = tallies::levels(expected, end);
  ASSERT_EQ(levels.size(), wanted.size());
  for (std::size_t i = 0; i < levels.size(); ++i) {
    SCOPED_TRACE(wanted[i].container);
    EXPECT_EQ(levels[i].container, wanted[i].container);
    EXPECT_EQ(levels[i].amount, wanted[i].amount);
    EXPECT_EQ(levels[i].sealed, wanted[i].sealed);
    EXPECT_EQ(levels[i].oldest_content, wanted[i].oldest_content);
    ASSERT_EQ(levels[i].last_reading.has_value(), wanted[i].last_reading.has_value());
    if (!levels[i].last_reading) continue;
    EXPECT_EQ(levels[i].last_reading->at, wanted[i].last_reading->at);
    EXPECT_EQ(levels[i].last_reading->reading, wanted[i].last_reading->reading);
    EXPECT_EQ(levels[i].last_reading->logged, wanted[i].last_reading->logged);
  }
}

TEST(Viewpoint, KnownAtIsWhatTheLiveStateWasAtThatSize) {
  constexpr std::uint64_t kSeed = 11;
  SCOPED_TRACE("seed " + std::to_string(kSeed));
  TestWorkshop workshop;
  RandomEntries people(workshop, kSeed);
  std::map<std::uint64_t, std::string> was;
  for (int i = 0; i < 12; ++i) {
    was.emplace(workshop.size(), workshop.ports().live.view()->snapshot());
    people.send(17);
  }
  ASSERT_EQ(was.size(), 12U);
  for (const auto& [size, bytes] : was) {
    EXPECT_TRUE(seen(workshop, {size}).snapshot() == bytes) << "size " << size;
  }
  EXPECT_TRUE(seen(workshop, {}).snapshot() == workshop.ports().live.view()->snapshot());
  EXPECT_EQ(seen(workshop, {0}).size(), 0U);
}

TEST(Viewpoint, AsOfIsWhatABookWouldSayThatWasNeverToldTheRest) {
  constexpr std::uint64_t kSeed = 18;
  SCOPED_TRACE("seed " + std::to_string(kSeed));
  TestWorkshop workshop;
  RandomEntries people(workshop, kSeed);
  people.send(500);
  for (int i = 0; i < 4; ++i) {
    Viewpoint view{UINT64_MAX, people.moment()};
    if (i % 2 == 1) view.known_at = 100 + people.pick(400);
    SCOPED_TRACE("as of " + base::format_rfc3339_utc(view.as_of) + ", known at " +
                 std::to_string(view.known_at));
    TestWorkshop copy(TestWorkshop::Register::kEmpty);
    ASSERT_NO_FATAL_FAILURE(copy_seen(workshop, copy, view));
    ASSERT_GT(copy.size(), 12U);
    ASSERT_LT(copy.size(), workshop.size());
    expect_same_levels(seen(workshop, view), *copy.ports().live.view());
  }
}

TEST(Viewpoint, SeparatesWhatHadHappenedFromWhatWasKnown) {
  const TestWorkshop workshop;
  const std::string slip = workshop.enter(drain("w1", "620", "2026-11-10T10:00:00Z"));
  workshop.enter(drain("w1", "50", "2026-11-12T10:00:00Z"));
  const std::uint64_t before_correction = workshop.size();
  workshop.enter(correct(slip, R"({"volume_ml":62})"));
  workshop.enter(drain("w1", "7", "2026-11-09T10:00:00Z"));  // late
  const auto volume = [&](const Viewpoint& view) {
    const auto levels = show_levels(workshop.ports(), view);
    return value_at(*levels, "levels/2/container") + value_at(*levels, "levels/2/volume_ml");
  };
  const base::Instant eleventh = at("2026-11-11T00:00:00Z");
  EXPECT_EQ(volume({}), R"("w1"119)");
  EXPECT_EQ(volume({UINT64_MAX, eleventh}), R"("w1"69)");
  EXPECT_EQ(volume({before_correction}), R"("w1"670)");
  EXPECT_EQ(volume({before_correction, eleventh}), R"("w1"620)");
  EXPECT_EQ(volume({UINT64_MAX, at("2026-11-10T09:59:59.999Z")}), R"("w1"7)");
  EXPECT_EQ(volume({UINT64_MAX, at("2026-11-10T10:00:00Z")}), R"("w1"69)") << "that very moment";
}

TEST(Viewpoint, SeesTheRegisterInTheOrderOfTheBook) {
  const TestWorkshop workshop;
  workshop.enter(tell("register-change",
                      R"({"thing_class":"container","thing":"w4","act":"added","name":"Drum",)"
                      R"("stream":"oil","capacity_l":205,"working_limit_percent":90,)"
                      R"("counts_waste":"yes"})",
                      "2026-11-15T10:00:00Z"));
  const std::uint64_t before_drain = workshop.size();
  workshop.enter(drain("w4", "400", "2026-11-10T10:00:00Z"));
  const auto volume = [&](const Viewpoint& view) {
    const auto levels = show_levels(workshop.ports(), view);
    return value_at(*levels, "levels/4/container") + value_at(*levels, "levels/4/volume_ml");
  };
  EXPECT_EQ(volume({UINT64_MAX, at("2026-11-12T00:00:00Z")}), R"("w4"400)");
  EXPECT_EQ(volume({before_drain, at("2026-11-12T00:00:00Z")}), R"("w4"0)");
  EXPECT_EQ(volume({before_drain - 1, at("2026-11-12T00:00:00Z")}), "") << "not yet entered";
}

}  // namespace
}  // namespace benchwarden::workshop
