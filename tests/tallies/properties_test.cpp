#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <iterator>

#include "tallies/plain_model.h"
#include "tallies/random_book.h"
#include "tallies/state_builder.h"

// Each book is made from a seed; a failure prints it.

namespace benchwarden::tallies {
namespace {

constexpr std::uint64_t kBooks = 60;
constexpr int kEntries = 300;
constexpr int kMoments = 12;
const base::Instant kBefore = day(-1'000);

const std::vector<std::string>& containers() {
  static const std::vector<std::string> kAllOfThem{"w1", "w2", "m1", "drum", "can", "bin"};
  return kAllOfThem;
}

void expect_as_played(const State& state, const std::vector<Posting>& postings,
                      base::Instant until) {
  const PlainContainers played = play(postings, until);
  for (const std::string& id : containers()) {
    SCOPED_TRACE(id + " until " + std::to_string(until.ms));
    const auto found = played.find(id);
    const PlainContainer plain = found == played.end() ? PlainContainer{} : found->second;
    const Timeline& timeline = state.timeline(id);
    EXPECT_EQ(timeline.level_at(until), plain.level);
    EXPECT_EQ(timeline.oldest_content(until), plain.oldest);
    EXPECT_EQ(timeline.sealed(until), plain.sealed);
    EXPECT_EQ(timeline.last_reading(kBefore, until), plain.reading);
    EXPECT_EQ(timeline.arisen(kBefore, until), plain.arisen);
  }
}

std::vector<Record> standing(const RecordList& checks) {
  std::vector<Record> left;
  std::copy_if(checks.begin(), checks.end(), std::back_inserter(left),
               [](const Record& check) { return !check.struck; });
  return left;
}

TEST(AnyBook, FoldsToWhatPlayingItInOrderOfTimeGives) {
  for (std::uint64_t seed = 1; seed <= kBooks; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const RandomBook book = random_book(seed, kEntries, Amending::kMany);
    const State state = fold(book.steps);
    std::mt19937_64 random(seed);
    for (int i = 0; i < kMoments; ++i) {
      expect_as_played(state, book.right_at_once, random_moment(random));
    }
    expect_as_played(state, book.right_at_once, day(1'000));
    if (HasFailure()) break;
  }
}

TEST(AnyBook, IsRightAtEveryStepOnTheWay) {
  for (std::uint64_t seed = 1'001; seed <= 1'010; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    for (int entries = 3; entries < 80; ++entries) {
      const RandomBook book = random_book(seed, entries, Amending::kMany);
      expect_as_played(fold(book.steps), book.right_at_once, day(1'000));
    }
    if (HasFailure()) break;
  }
}

TEST(AnyBook, CorrectedIsTheSameAsEnteredRightAtOnce) {
  for (std::uint64_t seed = 2'001; seed <= 2'000 + kBooks; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const RandomBook book = random_book(seed, kEntries, Amending::kMany);
    const State corrected = fold(book.steps);
    const State right = fold(book.right_at_once);
    EXPECT_EQ(corrected.things("tool"), right.things("tool"));
    EXPECT_EQ(corrected.things("container"), right.things("container"));
    EXPECT_EQ(corrected.collections(), right.collections());
    for (const char* tool : {"t1", "t2"}) {
      EXPECT_EQ(standing(corrected.records("tool", tool)), standing(right.records("tool", tool)));
    }
    std::mt19937_64 random(seed);
    for (const std::string& id : containers()) {
      const base::Instant from = random_moment(random);
      const base::Instant until = random_moment(random);
      const Movement a = corrected.timeline(id).movement(from, until);
      const Movement b = right.timeline(id).movement(from, until);
      EXPECT_EQ(a.opening, b.opening) << id;
      EXPECT_EQ(a.closing, b.closing) << id;
      EXPECT_EQ(a.emptied, b.emptied) << id;
      EXPECT_EQ(b.corrections, 0) << id;
      EXPECT_EQ(corrected.timeline(id).arisen(from, until), right.timeline(id).arisen(from, until));
    }
    if (HasFailure()) break;
  }
}

TEST(AnyBook, BalancesOverAnyInterval) {
  std::int64_t corrections_seen = 0;
  for (std::uint64_t seed = 3'001; seed <= 3'000 + kBooks; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const State state = fold(random_book(seed, kEntries, Amending::kMany).steps);
    std::mt19937_64 random(seed);
    for (int i = 0; i < kMoments; ++i) {
      const Timeline& timeline = state.timeline(containers().at(pick(random, 6)));
      std::array<base::Instant, 3> at{random_moment(random), random_moment(random),
                                      random_moment(random)};
      std::sort(at.begin(), at.end());
      const Movement m = timeline.movement(at[0], at[1]);
      EXPECT_EQ(
          m.opening + m.added + m.moved_in - m.moved_out - m.taken - m.emptied + m.corrections,
          m.closing);
      EXPECT_EQ(m.opening, timeline.level_at(at[0]));
      EXPECT_EQ(m.closing, timeline.level_at(at[1]));
      const Movement next = timeline.movement(at[1], at[2]);
      const Movement both = timeline.movement(at[0], at[2]);
      EXPECT_EQ(m.corrections + next.corrections, both.corrections);
      EXPECT_EQ(m.taken + next.taken, both.taken);
      if (m.corrections != 0) ++corrections_seen;
    }
    if (HasFailure()) break;
  }
  EXPECT_GT(corrections_seen, 100) << "else this proves little";
}

TEST(AnyBook, AddsUpTheSameInWhateverOrderItArrives) {
  for (std::uint64_t seed = 4'001; seed <= 4'000 + kBooks; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::vector<Posting> postings = random_book(seed, kEntries, Amending::kNone).right_at_once;
    std::mt19937_64 random(seed);
    // No two at one moment: there the order of the book decides. The register stays first.
    for (std::size_t i = 0; i < postings.size(); ++i) {
      postings[i].occurred_at.ms = postings[i].occurred_at.ms * 1'000 + static_cast<int>(i);
    }
    const State in_order = fold(postings);
    for (std::size_t i = postings.size() - 1; i > 2; --i) {
      std::swap(postings[i], postings[2 + pick(random, i - 1)]);
    }
    for (std::size_t i = 0; i < postings.size(); ++i) postings[i].seq = i + 1;
    const State shuffled = fold(postings);
    for (const std::string& id : containers()) {
      const base::Instant from{random_moment(random).ms * 1'000};
      const base::Instant until{random_moment(random).ms * 1'000};
      const Timeline& a = in_order.timeline(id);
      const Timeline& b = shuffled.timeline(id);
      EXPECT_EQ(a.movement(from, until), b.movement(from, until)) << id;
      EXPECT_EQ(a.arisen(from, until), b.arisen(from, until)) << id;
      EXPECT_EQ(a.oldest_content(until), b.oldest_content(until)) << id;
      EXPECT_EQ(a.level(), b.level()) << id;
    }
    if (HasFailure()) break;
  }
}

TEST(AnyBook, KeepsBothEndsOfAMoveOfAllInStep) {
  std::size_t seen = 0;
  for (std::uint64_t seed = 5'001; seed <= 5'060; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const State state = fold(random_book(seed, kEntries, Amending::kMany).steps);
    for (const Event& in : state.timeline("w1").events()) {
      if (in.kind != EventKind::kMovedIn || !in.whole) continue;
      for (const char* from : {"w2", "can"}) {  // of the same unit, so nothing is converted
        for (const Event& out : state.timeline(from).events()) {
          if (out.seq != in.seq || out.part != in.part || !out.whole) continue;
          ++seen;
          EXPECT_EQ(out.amount, in.amount) << out.seq;
          EXPECT_GE(out.amount, 0);
        }
      }
    }
  }
  EXPECT_GT(seen, 50U) << "else this proves little";
}

}  // namespace
}  // namespace benchwarden::tallies
