#include <gtest/gtest.h>

#include "base/sha256.h"
#include "quantities/units.h"
#include "tallies/random_book.h"
#include "tallies/state_builder.h"

namespace benchwarden::tallies {
namespace {

constexpr std::size_t kDigestSize = 32;

std::string signed_again(std::string body) {
  const base::Sha256Digest digest = base::sha256(body);
  body += base::as_bytes(digest);
  return body;
}

std::string body_of(const std::string& snapshot) {
  return snapshot.substr(0, snapshot.size() - kDigestSize);
}

std::string small_snapshot() { return fold(random_book(7, 60, Amending::kMany).steps).snapshot(); }

bool is_damaged(std::string_view bytes) {
  const auto state = State::from_snapshot(bytes);
  return !state.ok() && state.error().code == base::ErrorCode::kDamaged;
}

/// Entries that did nothing change the density of the oil instead.
void change_densities(RandomBook& book, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  for (Step& step : book.steps) {
    auto* posting = std::get_if<Posting>(&step);
    const bool only_notes = posting != nullptr && posting->effects.size() == 1 &&
                            std::holds_alternative<entries::Notes>(posting->effects.front());
    if (!only_notes) continue;
    const auto density = static_cast<std::int64_t>(800'000 + pick(random, 200'000));
    posting->effects = {alters("stream", "oil", {number_field("density_kg_m3", density, "kg_m3")})};
  }
}

TEST(Snapshot, OfNothingIsReadBack) {
  const auto state = State::from_snapshot(State().snapshot());
  ASSERT_TRUE(state.ok());
  EXPECT_EQ(state->size(), 0U);
}

TEST(Snapshot, IsTheSameBytesForTheSameBook) {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    const RandomBook book = random_book(seed, 200, Amending::kMany);
    EXPECT_EQ(fold(book.steps).snapshot(), fold(book.steps).snapshot()) << "seed " << seed;
  }
}

TEST(Snapshot, ContinuesAsIfItHadNeverBeenWritten) {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    RandomBook book = random_book(seed, 200, Amending::kMany);
    change_densities(book, seed);
    const std::string straight = fold(book.steps).snapshot();
    std::mt19937_64 random(seed);
    State state;
    for (const Step& step : book.steps) {
      apply(state, step);
      if (pick(random, 12) != 0) continue;
      const std::string bytes = state.snapshot();
      auto again = State::from_snapshot(bytes);
      ASSERT_TRUE(again.ok()) << again.error().detail;
      EXPECT_EQ(again->snapshot(), bytes);
      state = std::move(again).value();
    }
    EXPECT_EQ(state.snapshot(), straight);
    EXPECT_EQ(state.size(), book.steps.size());
  }
}

TEST(Snapshot, KeepsEveryTypeOfAttribute) {
  const entries::Fields attributes{
      number_field("capacity_l", 60'500, "l"),
      id_field("stream", "oil"),
      {"since", base::CivilDate{2024, 2, 29}},
      code_field("shape", "drum"),
      text_field("name", "Fass №1"),
      {"points", entries::List{{{{"at", entries::Text{"x"}}, {"on", base::CivilDate{2025, 1, 1}}},
                                {{"code", entries::Code{"c"}}, {"id", entries::Id{"i"}}},
                                {}}}}};
  BookUnderTest book({enters("container", "x", attributes)});
  const auto state = State::from_snapshot(book.state().snapshot());
  ASSERT_TRUE(state.ok());
  EXPECT_EQ(state->thing("container", "x")->attributes, attributes);
}

TEST(Snapshot, KeepsServiceMarksAndCollections) {
  BookUnderTest book({enters("tool", "r1", {})});
  const auto seq = book.enter({0, hour(1), hour(5), false, {}});
  book.enter(day(1), {checks("r1", entries::Outcome::kFailed)});
  book.enter(day(2), {takes("k1", {{"w1", ml(5), true}})});
  book.strike(seq);
  const auto state = State::from_snapshot(book.state().snapshot());
  ASSERT_TRUE(state.ok());
  EXPECT_FALSE(state->thing("tool", "r1")->in_service);
  EXPECT_EQ(state->corrected(), book.state().corrected());
  EXPECT_EQ(state->claims(), book.state().claims());
  EXPECT_EQ(state->claims().open().size(), 1U);
  EXPECT_EQ(state->lagging(), book.state().lagging());
  EXPECT_EQ(state->lagging().size(), 1U);
  EXPECT_EQ(state->collections(), book.state().collections());
}

TEST(Snapshot, WithAnyByteChangedIsRefused) {
  const std::string good = small_snapshot();
  ASSERT_TRUE(State::from_snapshot(good).ok());
  for (std::size_t i = 0; i < good.size(); ++i) {
    for (const unsigned flip : {0x01U, 0x80U, 0xffU}) {
      std::string bad = good;
      bad[i] = static_cast<char>(static_cast<unsigned char>(bad[i]) ^ flip);
      EXPECT_TRUE(is_damaged(bad)) << "byte " << i << " flip " << flip;
    }
  }
}

TEST(Snapshot, CutShortOrLongerIsRefused) {
  const std::string good = small_snapshot();
  for (std::size_t size = 0; size < good.size(); ++size) {
    EXPECT_TRUE(is_damaged(std::string_view(good).substr(0, size))) << size;
  }
  EXPECT_TRUE(is_damaged(good + '\0'));
}

TEST(Snapshot, CutShortUnderAFittingDigestIsRefused) {
  const std::string body = body_of(small_snapshot());
  for (std::size_t size = 0; size < body.size(); ++size) {
    EXPECT_TRUE(is_damaged(signed_again(body.substr(0, size)))) << size;
  }
  EXPECT_TRUE(is_damaged(signed_again(body + '\0')));
}

TEST(Snapshot, OfAnotherFoldVersionIsRefused) {
  std::string body = body_of(State().snapshot());
  const std::size_t version = body.find('\n') + 1;
  ASSERT_EQ(body[version], kFoldVersion);
  body[version] = static_cast<char>(kFoldVersion + 1);
  const auto state = State::from_snapshot(signed_again(body));
  ASSERT_FALSE(state.ok());
  EXPECT_NE(state.error().detail.find("fold version"), std::string::npos);
}

// Damage that the digest cannot show: what is accepted must at least be a state in itself, which
// writes the same bytes again and answers every question.
TEST(Snapshot, DamagedUnderAFittingDigestIsRefusedOrWhole) {
  const std::string body = body_of(small_snapshot());
  std::size_t refused = 0;
  std::mt19937_64 random(11);
  constexpr int kRounds = 4'000;
  for (int round = 0; round < kRounds; ++round) {
    std::string bad = body;
    for (auto i = 1 + pick(random, 3); i > 0; --i) {
      bad[pick(random, bad.size())] = static_cast<char>(pick(random, 256));
    }
    const std::string bytes = signed_again(bad);
    const auto state = State::from_snapshot(bytes);
    if (!state.ok()) {
      ++refused;
      continue;
    }
    EXPECT_EQ(state->snapshot(), bytes) << "round " << round;
    for (const Level& level : levels(*state, day(30))) {
      const Movement movement = state->timeline(level.container).movement(day(3), day(30));
      EXPECT_EQ(movement.closing, level.amount);
    }
  }
  EXPECT_GT(refused, kRounds / 2U);
}

TEST(Snapshot, WhoseMoveOfAllDoesNotFitTheLogIsRefused) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("can", ml(77))});
  book.enter(day(2), {moves("can", "w1", kAll)});
  const std::string body = body_of(book.state().snapshot());
  const std::string amount = "\x90\xb3\x09";  // 77 000 µL, doubled, in groups of seven bits
  std::size_t at = body.find(amount);
  int seen = 0;
  for (; at != std::string::npos; at = body.find(amount, at + 1), ++seen) {
    std::string bad = body;
    bad[at] = static_cast<char>(bad[at] + 2);
    EXPECT_TRUE(is_damaged(signed_again(bad))) << "place " << seen;
  }
  EXPECT_EQ(seen, 3) << "added, moved out, moved in";
}

}  // namespace
}  // namespace benchwarden::tallies
