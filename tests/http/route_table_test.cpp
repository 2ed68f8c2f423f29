#include "http/route_table.h"

#include <gtest/gtest.h>

namespace benchwarden::http {
namespace {

Route route(Method method, const std::string& pattern) {
  return {method, pattern, Who::open(), method == Method::kGet ? Effect::kReads : Effect::kWrites,
          [](const Request&, const Context&) { return Response(); }};
}

std::string fault_in(const std::vector<Route>& routes) {
  return RouteTable::fault_in(routes).value_or("");
}

RouteTable table() {
  return RouteTable({
      route(Method::kGet, "/entries"),
      route(Method::kPost, "/entries"),
      route(Method::kGet, "/entries/{id}"),
      route(Method::kGet, "/reports/issued/{id}.pdf"),
      route(Method::kGet, "/reports/waste-month.{format}"),
      route(Method::kPost, "/reports/{name}"),
  });
}

std::string pattern_for(const std::string& method, const std::string& path) {
  static const RouteTable kTable = table();
  const auto found = kTable.find(method, path);
  const auto* match = std::get_if<RouteMatch>(&found);
  return match == nullptr ? "" : match->route->pattern;
}

std::vector<Method> allowed_for(const std::string& method, const std::string& path) {
  return std::get<RouteMiss>(table().find(method, path)).allowed;
}

TEST(RouteTable, FindsLiteralAndNamedParts) {
  EXPECT_EQ(pattern_for("POST", "/entries"), "/entries");
  EXPECT_EQ(pattern_for("GET", "/entries/e1"), "/entries/{id}");
  EXPECT_EQ(pattern_for("GET", "/reports/issued/e1.pdf"), "/reports/issued/{id}.pdf");
  EXPECT_EQ(pattern_for("POST", "/reports/waste-month"), "/reports/{name}");
}

TEST(RouteTable, GivesTheDecodedPart) {
  const RouteTable routes = table();
  const auto found = routes.find("GET", "/entries/a%20b%2Fc");
  ASSERT_TRUE(std::holds_alternative<RouteMatch>(found));
  EXPECT_EQ(Context(std::get<RouteMatch>(found).parts, Caller{}).part("id"), "a b/c");
}

TEST(RouteTable, GivesAPartWithoutWhatStandsAroundIt) {
  const RouteTable routes = table();
  const auto found = routes.find("GET", "/reports/waste-month.csv");
  ASSERT_TRUE(std::holds_alternative<RouteMatch>(found));
  EXPECT_EQ(std::get<RouteMatch>(found).parts, (Context::Parts{{"format", "csv"}}));
}

TEST(RouteTable, ServesHeadAsGet) { EXPECT_EQ(pattern_for("HEAD", "/entries"), "/entries"); }

TEST(RouteTable, APartIsNeverEmpty) {
  EXPECT_EQ(pattern_for("GET", "/entries/"), "");
  EXPECT_EQ(pattern_for("GET", "/reports/issued/.pdf"), "");
}

TEST(RouteTable, KnowsNothingOfLongerShorterOrBadlyEncodedPaths) {
  for (const std::string path :
       {"/", "", "/entries/a/b", "/entries/%zz", "/entries/%ff", "entries"}) {
    EXPECT_TRUE(allowed_for("GET", path).empty()) << path;
  }
}

TEST(RouteTable, SaysWhichMethodsAPathHas) {
  EXPECT_EQ(allowed_for("DELETE", "/entries"), (std::vector{Method::kGet, Method::kPost}));
  EXPECT_EQ(allowed_for("OPTIONS", "/reports/waste-month.pdf"),
            (std::vector{Method::kGet, Method::kPost}));
  EXPECT_TRUE(allowed_for("DELETE", "/nowhere").empty());
}

TEST(RouteTable, FindsNoFaultInAGoodTable) {
  EXPECT_EQ(fault_in(table().routes()), "");
  EXPECT_EQ(fault_in({}), "");
}

TEST(RouteTable, MustBeInOrderWithoutDoubles) {
  EXPECT_EQ(fault_in({route(Method::kGet, "/b"), route(Method::kGet, "/a")}),
            "GET /a: out of order or twice");
  EXPECT_EQ(fault_in({route(Method::kPost, "/a"), route(Method::kGet, "/a")}),
            "GET /a: out of order or twice");
  EXPECT_EQ(fault_in({route(Method::kGet, "/a"), route(Method::kGet, "/a")}),
            "GET /a: out of order or twice");
}

TEST(RouteTable, MustNotLeaveAPathToTwoRoutes) {
  EXPECT_EQ(fault_in({route(Method::kGet, "/a/b/{id}"), route(Method::kGet, "/a/{id}/c")}),
            "GET /a/{id}/c: a path could also fit /a/b/{id}");
  EXPECT_EQ(fault_in({route(Method::kGet, "/a/x{id}"), route(Method::kGet, "/a/{id}.pdf")}),
            "GET /a/{id}.pdf: a path could also fit /a/x{id}");
  EXPECT_EQ(fault_in({route(Method::kGet, "/a/{id}.csv"), route(Method::kGet, "/a/{id}.pdf")}), "");
}

TEST(RouteTable, FindsAPathWithoutNamesBeforeOneWithThem) {
  const std::vector<Route> routes{route(Method::kGet, "/a/b"), route(Method::kGet, "/a/{id}")};
  EXPECT_EQ(fault_in(routes), "");
  const RouteTable table(routes);
  EXPECT_EQ(std::get<RouteMatch>(table.find("GET", "/a/b")).route->pattern, "/a/b");
  EXPECT_EQ(std::get<RouteMatch>(table.find("GET", "/a/c")).route->pattern, "/a/{id}");
  EXPECT_EQ(std::get<RouteMiss>(table.find("POST", "/a/b")).allowed,
            std::vector<Method>{Method::kGet})
      << "named once";
}

TEST(RouteTable, RefusesPatternsItCannotRead) {
  for (const std::string pattern : {"a", "/{", "/}", "/{}", "/{a}{b}", "/}a{"}) {
    EXPECT_NE(fault_in({route(Method::kGet, pattern)}).find("cannot be read"), std::string::npos)
        << pattern;
  }
}

TEST(RouteTable, RefusesAGetThatWritesANobodyAndAMissingHandler) {
  Route writing = route(Method::kGet, "/a");
  writing.effect = Effect::kWrites;
  EXPECT_EQ(fault_in({writing}), "GET /a: a GET must not write");
  Route nobody = route(Method::kGet, "/a");
  nobody.who = Who::only({});
  EXPECT_EQ(fault_in({nobody}), "GET /a: nobody may call it");
  Route empty = route(Method::kGet, "/a");
  empty.handler = nullptr;
  EXPECT_EQ(fault_in({empty}), "GET /a: no handler");
}

TEST(RouteTable, RefusesABodyThatIsNotSaidWhole) {
  const OwnBody good{{"image/png"},
                     10,
                     std::chrono::milliseconds(1),
                     std::make_shared<base::Gate>(base::GateLimits{})};
  const auto with = [](Method method, const OwnBody& body) {
    Route made = route(method, "/a");
    made.body = body;
    return fault_in({made});
  };
  EXPECT_EQ(with(Method::kPost, good), "");
  EXPECT_EQ(with(Method::kGet, good), "GET /a: this method carries no body");
  OwnBody without = good;
  without.types.clear();
  EXPECT_NE(with(Method::kPost, without), "");
  without = good;
  without.bytes_max = 0;
  EXPECT_NE(with(Method::kPost, without), "");
  without = good;
  without.time = std::chrono::milliseconds(0);
  EXPECT_NE(with(Method::kPost, without), "");
  without = good;
  without.places.reset();
  EXPECT_NE(with(Method::kPost, without), "");
}

TEST(Who, AdmitsTheRolesNamedAndNoOther) {
  using access::Role;
  constexpr Who kBoth = Who::only({Role::kManager, Role::kInspector});
  EXPECT_TRUE(kBoth.admits(Role::kManager));
  EXPECT_TRUE(kBoth.admits(Role::kInspector));
  EXPECT_FALSE(kBoth.admits(Role::kTechnician));
  EXPECT_FALSE(kBoth.is_open());
  EXPECT_TRUE(Who::any().admits(Role::kTechnician));
  EXPECT_FALSE(Who::any().is_open());
  EXPECT_TRUE(Who::open().is_open());
}

}  // namespace
}  // namespace benchwarden::http
