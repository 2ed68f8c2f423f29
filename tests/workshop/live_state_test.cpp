#include "workshop/live_state.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/fold.h"
#include "workshop/paused_book.h"
#include "workshop/random_entries.h"

namespace benchwarden::workshop {
namespace {

using ::testing::AllOf;
using ::testing::Gt;
using ::testing::HasSubstr;

Told third_oil_container() {
  return tell("register-change",
              R"({"thing_class":"container","thing":"w3","act":"added","name":"Can","stream":"oil",
                  "shape":"can","capacity_l":60,"working_limit_percent":90,"counts_waste":"yes"})",
              "2026-01-05T08:00:00Z");
}

std::string live_bytes(const TestWorkshop& workshop) {
  return workshop.ports().live.view()->snapshot();
}

tallies::State folded_anew(const TestWorkshop& workshop) {
  auto state = refold(workshop.ports().book, workshop.ports().definitions.catalog, {});
  if (!state) ADD_FAILURE() << state.error().detail;
  return *std::move(state);
}

/// Another state than the book's, of the same size: nothing ever happened.
std::string bytes_of_idle_state(std::uint64_t size) {
  tallies::State state;
  for (std::uint64_t seq = 1; seq <= size; ++seq)
    state.apply(tallies::Posting{seq, {}, {}, true, {}});
  return state.snapshot();
}

class LiveStateOfRandomBook : public ::testing::TestWithParam<std::uint64_t> {};

TEST_P(LiveStateOfRandomBook, IsWhatTheBookFoldsToAlsoAfterARestart) {
  SCOPED_TRACE("seed " + std::to_string(GetParam()));
  TestWorkshop workshop;
  workshop.enter(third_oil_container());
  workshop.enter(tell("register-change", R"({"thing_class":"person","thing":"p2","act":"added",)"
                                         R"("competences":[{"competence":"tool-inspection"}]})"));
  RandomEntries people(workshop, GetParam());
  people.send(400);
  ASSERT_TRUE(workshop.ports().live.keep().ok());
  people.send(800);
  EXPECT_EQ(workshop.size(), 13U + 1'200U);
  EXPECT_THAT(people.corrections(), Gt(60));
  EXPECT_THAT(people.strikes(), Gt(20));
  EXPECT_THAT(people.late(), Gt(80));
  EXPECT_THAT(people.whole_transfers(), Gt(20));

  const std::string live = live_bytes(workshop);
  EXPECT_TRUE(live == folded_anew(workshop).snapshot());
  workshop.open();
  EXPECT_TRUE(live == live_bytes(workshop)) << "from the snapshot and what came after it";
  people.send(50);
  EXPECT_TRUE(live_bytes(workshop) == folded_anew(workshop).snapshot()) << "and it follows again";
}

INSTANTIATE_TEST_SUITE_P(Seeds, LiveStateOfRandomBook, ::testing::Values(1U, 2U, 3U));

/// A workshop with a drain, whose stored snapshot a test replaces.
class StoredSnapshot : public ::testing::Test {
 protected:
  StoredSnapshot() {
    workshop_.enter(drain("w1", "620"));
    workshop_.enter(drain("w2", "30"));
  }
  void keep(const book::Book::Snapshot& snapshot) {
    ASSERT_TRUE(workshop_.ports().book.keep_snapshot(snapshot).ok());
  }
  [[nodiscard]] book::TreeHead head() const { return workshop_.ports().book.head(); }
  /// After a restart; an idle state would show no oil at all.
  std::string oil_after_restart() {
    workshop_.open();
    return workshop_.volume_ml("w1");
  }
  TestWorkshop workshop_;
};

TEST_F(StoredSnapshot, IsTakenAsItIsWhenItFitsTheBook) {
  // Not repaired, not doubted: this is what makes the start fast, and what the tests below rely on.
  keep({tallies::kFoldVersion, head(), bytes_of_idle_state(head().size)});
  workshop_.open();
  EXPECT_EQ(workshop_.ports().live.view()->things("container").size(), 0U);
}

TEST_F(StoredSnapshot, OfAnotherFoldVersionIsDropped) {
  keep({tallies::kFoldVersion + 1, head(), bytes_of_idle_state(head().size)});
  EXPECT_EQ(oil_after_restart(), "620");
}

TEST_F(StoredSnapshot, OfAnotherBookIsDropped) {
  book::TreeHead other = head();
  other.root[0] ^= 1U;
  keep({tallies::kFoldVersion, other, bytes_of_idle_state(other.size)});
  EXPECT_EQ(oil_after_restart(), "620");
}

TEST_F(StoredSnapshot, OfALargerBookIsDropped) {
  keep({tallies::kFoldVersion,
        {head().size + 1, head().root},
        bytes_of_idle_state(head().size + 1)});
  EXPECT_EQ(oil_after_restart(), "620");
}

TEST_F(StoredSnapshot, WhoseStateIsOfAnotherSizeIsDropped) {
  keep({tallies::kFoldVersion, head(), bytes_of_idle_state(head().size - 1)});
  EXPECT_EQ(oil_after_restart(), "620");
}

TEST_F(StoredSnapshot, DamagedInAnyByteIsDropped) {
  const std::string good = bytes_of_idle_state(head().size);
  for (std::size_t i = 0; i < good.size(); i += 1 + good.size() / 12) {
    std::string bad = good;
    bad[i] = static_cast<char>(bad[i] ^ 0x20);
    keep({tallies::kFoldVersion, head(), bad});
    EXPECT_EQ(oil_after_restart(), "620") << "byte " << i;
  }
}

TEST_F(StoredSnapshot, CutShortIsDropped) {
  const std::string good = bytes_of_idle_state(head().size);
  for (const std::size_t length : {std::size_t{0}, std::size_t{10}, good.size() - 1}) {
    keep({tallies::kFoldVersion, head(), good.substr(0, length)});
    EXPECT_EQ(oil_after_restart(), "620") << "length " << length;
  }
}

TEST_F(StoredSnapshot, OfAnEarlierSizeIsCaughtUp) {
  ASSERT_TRUE(workshop_.ports().live.keep().ok());
  workshop_.enter(drain("w1", "5"));
  EXPECT_EQ(oil_after_restart(), "625");
}

TEST_F(StoredSnapshot, IsKeptAgainOnceTheBookHasGrownEnough) {
  LiveState& live = workshop_.ports().live;
  const auto kept_size = [&] {
    const auto snapshot = workshop_.ports().book.snapshot();
    return snapshot ? snapshot->head.size : 0U;
  };
  ASSERT_TRUE(live.keep_after(head().size + 1).ok());
  EXPECT_EQ(kept_size(), 0U);
  ASSERT_TRUE(live.keep_after(head().size).ok());
  EXPECT_EQ(kept_size(), 13U);
  workshop_.enter(drain("w1", "5"));
  ASSERT_TRUE(live.keep_after(2).ok());
  EXPECT_EQ(kept_size(), 13U) << "counted from the newest snapshot";
  workshop_.enter(drain("w1", "5"));
  ASSERT_TRUE(live.keep_after(2).ok());
  EXPECT_EQ(kept_size(), 15U);
  workshop_.open();
  ASSERT_TRUE(workshop_.ports().live.keep_after(1).ok());
  EXPECT_EQ(kept_size(), 15U) << "also after a start from it";
}

/// A book whose disk can fail to read single entries.
class FailingBook : public PausedBook {
 public:
  explicit FailingBook(book::Book& behind) : PausedBook(behind, [](const book::Draft&) {}) {}
  base::Result<entries::Entry> entry(const base::Uuid& id) const override {
    if (fails) return base::Error{base::ErrorCode::kUnavailable, "disk I/O error"};
    return PausedBook::entry(id);
  }
  bool fails = false;
};

/// Tallies of their own over a book that can fail them, beside those of the workshop.
class FailingDisk : public ::testing::Test {
 protected:
  FailingDisk() {
    slip_ = workshop_.enter(drain("w1", "620"));
    auto live = LiveState::start(book_, workshop_.ports().definitions.catalog);
    if (!live) ADD_FAILURE() << live.error().detail;
    live_ = *std::move(live);
  }
  [[nodiscard]] std::int64_t level() const { return live_->view()->timeline("w1").level(); }

  TestWorkshop workshop_;
  std::string slip_;
  FailingBook book_{workshop_.ports().book};
  std::unique_ptr<LiveState> live_;
};

TEST_F(FailingDisk, LeavesTheTalliesAsTheyWereUntilTheyAreCaughtUp) {
  EXPECT_TRUE(live_->catch_up().ok()) << "nothing is missing";
  book_.fails = true;
  workshop_.enter(correct(slip_, R"({"volume_ml":62})"));
  workshop_.enter(drain("w1", "8"));
  EXPECT_EQ(live_->view()->size(), 12U) << "nothing is folded over the gap";
  EXPECT_EQ(level(), 620'000);
  const auto refused = live_->catch_up();
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, base::ErrorCode::kUnavailable);
  EXPECT_THAT(refused.error().detail, AllOf(HasSubstr("entry 13"), HasSubstr("disk I/O error")));

  book_.fails = false;
  ASSERT_TRUE(live_->catch_up().ok());
  EXPECT_EQ(level(), 70'000);
  workshop_.enter(drain("w1", "30"));
  EXPECT_EQ(level(), 100'000) << "and they follow again";
  EXPECT_TRUE(live_->view()->snapshot() == folded_anew(workshop_).snapshot());
}

TEST_F(FailingDisk, CannotPassForAnEarlierTimeInAViewpoint) {
  workshop_.enter(correct(slip_, R"({"volume_ml":62})"));
  book_.fails = true;
  const Viewpoint before{UINT64_MAX, at("2026-06-01T00:00:00Z")};
  EXPECT_EQ(refold(book_, workshop_.ports().definitions.catalog, before).error().code,
            base::ErrorCode::kUnavailable);
}

TEST(Start, NeedsTheZoneOfTheRegister) {
  TestWorkshop workshop;
  book::Draft moved;
  moved.content = workshop.ports().book.entry(1)->content;
  moved.content.id = testing::id_of(999'999);
  for (entries::Field& field : moved.content.fields) {
    if (field.name == "time_zone") field.value = entries::Text{"Nowhere/Atall"};
  }
  moved.signature.person = "p1";
  moved.subjects = {"workshop/site"};
  ASSERT_TRUE(workshop.ports().book.append(moved).ok());
  workshop.close();
  const FewNames names;
  const auto opened = OpenBook::open(workshop.folder(), real_definitions(), workshop.clock, names);
  ASSERT_FALSE(opened.ok());
  EXPECT_EQ(opened.error().code, base::ErrorCode::kUnavailable);
  EXPECT_THAT(opened.error().detail, HasSubstr("Nowhere/Atall"));
}

}  // namespace
}  // namespace benchwarden::workshop
