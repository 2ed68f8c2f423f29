#include <gtest/gtest.h>

#include "tallies/state_builder.h"

namespace benchwarden::tallies {
namespace {

std::string text(const State& state, const std::string& id, const std::string& name) {
  return std::string(word(state.thing("cylinder", id)->attributes, name));
}

TEST(Register, MergesAttributesInOrderOfTheBook) {
  BookUnderTest book;
  const auto added = book.enter(
      day(9), {enters("cylinder", "n1", {text_field("name", "Large"), text_field("serial", "1")})});
  const auto changed = book.enter(day(2), {alters("cylinder", "n1", {text_field("name", "50 L")})});
  EXPECT_EQ(text(book.state(), "n1", "name"), "50 L");
  EXPECT_EQ(text(book.state(), "n1", "serial"), "1");
  const Thing* thing = book.state().thing("cylinder", "n1");
  EXPECT_EQ(thing->added_seq, added);
  EXPECT_EQ(thing->changed_seq, changed);
  EXPECT_EQ(book.state().thing("cylinder", "n2"), nullptr);
  EXPECT_TRUE(book.state().things("tool").empty());
}

TEST(Register, KnowsSinceWhenAnAttributeHasItsValue) {
  BookUnderTest book;
  book.enter(day(3), {enters("room", "shop", {text_field("volume", "60")})});
  const auto same = book.enter(day(4), {alters("room", "shop", {text_field("volume", "60")})});
  const auto other = book.enter(day(6), {alters("room", "shop", {text_field("volume", "62")})});
  book.enter(day(8), {alters("room", "shop", {text_field("name", "Shop")})});
  const auto since = [](const State& state) {
    return state.under_care().holds_since("room", "shop", "volume");
  };
  EXPECT_EQ(since(book.state()), day(6));
  EXPECT_EQ(book.state().under_care().entered_at("room", "shop"), day(3));
  EXPECT_EQ(since(*State::from_snapshot(book.state().snapshot())), day(6));
  book.strike(other);
  EXPECT_EQ(since(book.state()), day(3)) << "the second entry said the same as the first";
  book.correct(same, {alters("room", "shop", {text_field("volume", "61")})});
  EXPECT_EQ(since(book.state()), day(4));
  EXPECT_FALSE(book.state().under_care().holds_since("room", "shop", "height"));
  EXPECT_FALSE(book.state().under_care().entered_at("room", "yard"));
}

TEST(Register, RetiresAndTakesBack) {
  BookUnderTest book({enters("cylinder", "n1", {})});
  const auto seq = book.enter(day(1), {retires("cylinder", "n1")});
  EXPECT_TRUE(book.state().thing("cylinder", "n1")->retired);
  book.enter(day(2), {alters("cylinder", "n1", {text_field("name", "Old")})});
  EXPECT_TRUE(book.state().thing("cylinder", "n1")->retired);
  book.strike(seq);
  EXPECT_FALSE(book.state().thing("cylinder", "n1")->retired);
  EXPECT_EQ(text(book.state(), "n1", "name"), "Old");
}

TEST(Register, KnowsSinceWhenAThingIsRetired) {
  BookUnderTest book({enters("cylinder", "n1", {})});
  const auto since = [&] { return book.state().under_care().retired_since("cylinder", "n1"); };
  EXPECT_FALSE(since());
  const auto first = book.enter(day(3), {retires("cylinder", "n1")});
  book.enter(day(5), {retires("cylinder", "n1")});
  EXPECT_EQ(since(), day(3));
  book.strike(first);
  EXPECT_EQ(since(), day(5));
  book.enter(day(6), {enters("cylinder", "n1", {})});
  EXPECT_FALSE(since()) << "taken back into use";
  EXPECT_FALSE(book.state().under_care().retired_since("cylinder", "n9"));
}

TEST(Register, CorrectsAnEntryAtItsPlace) {
  BookUnderTest book;
  const auto added = book.enter(
      day(1), {enters("cylinder", "n1", {text_field("name", "A"), text_field("serial", "1")})});
  book.enter(day(2), {alters("cylinder", "n1", {text_field("name", "B")})});
  book.correct(
      added, {enters("cylinder", "n1", {text_field("name", "C"), text_field("gas", "nitrogen")})});
  EXPECT_EQ(text(book.state(), "n1", "name"), "B") << "what was said later still stands";
  EXPECT_EQ(text(book.state(), "n1", "serial"), "") << "what was taken back is unknown";
  EXPECT_EQ(text(book.state(), "n1", "gas"), "nitrogen");
  EXPECT_EQ(book.state().thing("cylinder", "n1")->added_seq, added);
}

TEST(Register, ForgetsAThingWhoseOnlyEntryIsStruckOut) {
  BookUnderTest book;
  const auto seq = book.enter(day(1), {enters("cylinder", "n1", {})});
  book.strike(seq);
  EXPECT_EQ(book.state().thing("cylinder", "n1"), nullptr);
  EXPECT_TRUE(book.state().things("cylinder").empty());
}

TEST(Register, TellsAThingAsItsEntriesHadItThen) {
  BookUnderTest book;
  book.enter(day(3), {enters("room", "shop", {text_field("name", "Shop")})});
  const auto renamed = book.enter(day(5), {alters("room", "shop", {text_field("name", "Bay")})});
  book.enter(day(7), {retires("room", "shop")});
  const auto name_at = [&](int number) {
    const auto then = book.state().under_care().thing_at("room", "shop", day(number));
    return then ? std::string(word(then->attributes, "name")) : "";
  };
  EXPECT_EQ(name_at(1), "Shop") << "what is known first holds from the beginning";
  EXPECT_EQ(name_at(4), "Shop");
  EXPECT_EQ(name_at(5), "Bay");
  EXPECT_FALSE(book.state().under_care().thing_at("room", "shop", day(6))->retired);
  EXPECT_TRUE(book.state().under_care().thing_at("room", "shop", day(7))->retired);
  book.strike(renamed);
  EXPECT_EQ(name_at(6), "Shop");
  EXPECT_EQ(book.state().under_care().said_at("room", "shop"),
            (std::vector<base::Instant>{day(3), day(7)}));
  EXPECT_FALSE(book.state().under_care().thing_at("room", "none", day(7)));
}

TEST(Register, KeepsAThingOutOfServiceWhenItsEntryIsCorrected) {
  BookUnderTest book;
  const auto seq = book.enter(day(1), {enters("tool", "r1", {})});
  book.enter(day(2), {checks("r1", entries::Outcome::kWithdrawn)});
  book.correct(seq, {enters("tool", "r1", {text_field("name", "Regulator")})});
  EXPECT_FALSE(book.state().thing("tool", "r1")->in_service);
}

TEST(Marks, KeepWhatLagged) {
  BookUnderTest book;
  book.enter({0, hour(10), hour(11), true, {}});
  const auto late = book.enter({0, hour(10), {hour(11).ms + 1}, true, {}});
  ASSERT_EQ(book.state().lagging().size(), 1U);
  EXPECT_EQ(book.state().lagging()[0].seq, late);
  EXPECT_EQ(book.state().size(), 2U);
}

}  // namespace
}  // namespace benchwarden::tallies
