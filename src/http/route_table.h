#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "http/path_pattern.h"
#include "http/route.h"

namespace benchwarden::http {

struct RouteMatch {
  const Route* route = nullptr;  ///< lives as long as the table
  Context::Parts parts;
};
/// No route for this method; `allowed` says for which there is one, and is empty when the path is
/// unknown.
struct RouteMiss {
  std::vector<Method> allowed;
};

/// The routes, sorted by pattern and then method, so that the table reads as a list of what the
/// API can do and a doubled line cannot hide.
class RouteTable {
 public:
  /// Asserts that fault_in(routes) finds nothing.
  explicit RouteTable(std::vector<Route> routes);

  /// What is wrong with the table itself: not in order, a line twice, a pattern that cannot be
  /// read, two patterns of one method that a single path could fit (but for one without a name,
  /// which comes before the others), a GET that writes, a route
  /// nobody may call, a route without handler.
  static std::optional<std::string> fault_in(const std::vector<Route>& routes);

  [[nodiscard]] std::variant<RouteMatch, RouteMiss> find(std::string_view method,
                                                         std::string_view path) const;
  [[nodiscard]] const std::vector<Route>& routes() const { return routes_; }

 private:
  std::vector<Route> routes_;
  std::vector<PathPattern> patterns_;  ///< of the route with the same index
};

}  // namespace benchwarden::http
