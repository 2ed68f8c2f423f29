#include "http/scope.h"

#include <gtest/gtest.h>

#include <map>
#include <string>

namespace benchwarden::http {
namespace {

using access::InspectionScope;
constexpr InspectionScope kAll = InspectionScope::kEverything;
constexpr InspectionScope kWaste = InspectionScope::kWaste;
constexpr InspectionScope kGas = InspectionScope::kCylindersAndTools;

bool shown(InspectionScope scope, Shows shows, std::map<std::string, std::string> named = {}) {
  return route_in_scope(scope, shows, [named](std::string_view name) -> std::string_view {
    const auto found = named.find(std::string(name));
    return found == named.end() ? std::string_view() : std::string_view(found->second);
  });
}

TEST(Scope, OfEverythingHoldsAll) {
  for (const Shows shows :
       {Shows::kWhole, Shows::kNothing, Shows::kWaste, Shows::kCylindersAndTools, Shows::kKind,
        Shows::kClass, Shows::kReport}) {
    EXPECT_TRUE(shown(kAll, shows));
  }
  EXPECT_TRUE(kind_in_scope(kAll, "briefing"));
}

TEST(Scope, OfAPartHoldsNothingThatIsNotSaidToLieInIt) {
  for (const InspectionScope scope : {kWaste, kGas}) {
    EXPECT_FALSE(shown(scope, Shows::kWhole));
    EXPECT_TRUE(shown(scope, Shows::kNothing));
    EXPECT_FALSE(kind_in_scope(scope, "briefing"));
    EXPECT_FALSE(kind_in_scope(scope, "unheard-of"));
    EXPECT_FALSE(class_in_scope(scope, "person"));
    EXPECT_FALSE(class_in_scope(scope, ""));
    EXPECT_FALSE(report_in_scope(scope, "audit-pack"));
    EXPECT_FALSE(shown(scope, Shows::kClass));
    EXPECT_FALSE(shown(scope, Shows::kReport));
  }
}

TEST(Scope, OfWasteAndOfCylindersAndToolsHaveNothingInCommonButTheWorkshop) {
  EXPECT_TRUE(shown(kWaste, Shows::kWaste));
  EXPECT_FALSE(shown(kGas, Shows::kWaste));
  EXPECT_FALSE(shown(kWaste, Shows::kCylindersAndTools));
  EXPECT_TRUE(shown(kGas, Shows::kCylindersAndTools));
  EXPECT_TRUE(shown(kWaste, Shows::kKind, {{"kind", "oil-drained"}}));
  EXPECT_FALSE(shown(kGas, Shows::kKind, {{"kind", "oil-drained"}}));
  EXPECT_TRUE(shown(kGas, Shows::kKind, {{"kind", "cylinder-check"}}));
  EXPECT_TRUE(shown(kWaste, Shows::kKind, {{"subject", "container/w1"}}));
  EXPECT_FALSE(shown(kWaste, Shows::kKind, {{"subject", "cylinder/n1"}}));
  EXPECT_FALSE(shown(kWaste, Shows::kKind, {{"subject", "n1"}}));
  EXPECT_FALSE(shown(kWaste, Shows::kKind, {{"kind", "oil-drained"}, {"subject", "cylinder/n1"}}));
  EXPECT_TRUE(shown(kGas, Shows::kKind, {{"subject", "cylinder/n1"}}));
  EXPECT_FALSE(shown(kWaste, Shows::kClass, {{"class", "cylinder"}}));
  EXPECT_TRUE(shown(kGas, Shows::kClass, {{"class", "cylinder"}}));
  EXPECT_TRUE(shown(kWaste, Shows::kReport, {{"name", "waste-month"}}));
  EXPECT_FALSE(shown(kGas, Shows::kReport, {{"name", "waste-month"}}));
  for (const InspectionScope scope : {kWaste, kGas}) {
    EXPECT_TRUE(shown(scope, Shows::kClass, {{"class", "workshop"}}));
    EXPECT_TRUE(shown(scope, Shows::kKind));  // the handler selects
  }
}

}  // namespace
}  // namespace benchwarden::http
