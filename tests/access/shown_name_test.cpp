#include "access/shown_name.h"

#include <gtest/gtest.h>

namespace benchwarden::access {
namespace {

std::string initials_of(const std::string& name) {
  return shown_name({.id = "p3", .name = name}, NamesShown::kInitials);
}

TEST(ShownName, IsTheNameOrItsInitialsWithTheId) {
  EXPECT_EQ(shown_name({.id = "p3", .name = "Ivo Brandt"}, NamesShown::kWhole), "Ivo Brandt");
  EXPECT_EQ(initials_of("Ivo Brandt"), "I. B. (p3)");
  EXPECT_EQ(initials_of("Ivo  van der Brandt"), "I. v. d. B. (p3)");
  EXPECT_EQ(initials_of("Ivo"), "I. (p3)");
}

TEST(ShownName, TakesAWholeSignOfAnyScript) {
  EXPECT_EQ(initials_of("Österle Łukasz"), "Ö. Ł. (p3)");
  EXPECT_EQ(initials_of("\U00010400x"), "\U00010400. (p3)");
}

TEST(ShownName, IsTheIdOfWhoeverHasNoName) {
  EXPECT_EQ(initials_of(""), "p3");
  EXPECT_EQ(shown_name({.id = "p3", .name = ""}, NamesShown::kWhole), "p3");
}

}  // namespace
}  // namespace benchwarden::access
