#include "http/route_table.h"

#include <algorithm>
#include <cassert>
#include <tuple>
#include <utility>

namespace benchwarden::http {
namespace {

std::string label(const Route& route) {
  return std::string(method_name(route.method)) + " " + route.pattern;
}

std::optional<std::string> fault_of(const Route& route) {
  if (!PathPattern::parse(route.pattern)) {
    return label(route) + ": the pattern cannot be read";
  }
  if (route.method == Method::kGet && route.effect == Effect::kWrites) {
    return label(route) + ": a GET must not write";
  }
  if (route.who.is_nobody()) {
    return label(route) + ": nobody may call it";
  }
  if (!route.handler) {
    return label(route) + ": no handler";
  }
  if (route.body && (route.method == Method::kGet || route.method == Method::kDelete)) {
    return label(route) + ": this method carries no body";
  }
  if (route.body && (route.body->types.empty() || route.body->bytes_max == 0 ||
                     route.body->time.count() <= 0 || !route.body->places)) {
    return label(route) + ": its body has no type, length, time or place";
  }
  return std::nullopt;
}

/// Whether it would be unclear which of two routes a path means. One without a name stands before
/// what else its path would fit ('{' comes after all letters), and is found first.
bool can_meet(const Route& earlier, const Route& later) {
  const auto first = PathPattern::parse(earlier.pattern);
  return earlier.method == later.method && !first->is_literal() &&
         first->overlaps(*PathPattern::parse(later.pattern));
}

}  // namespace

std::optional<std::string> RouteTable::fault_in(const std::vector<Route>& routes) {
  for (std::size_t i = 0; i < routes.size(); ++i) {
    if (std::optional<std::string> fault = fault_of(routes[i])) {
      return fault;
    }
    if (i > 0 && std::tie(routes[i].pattern, routes[i].method) <=
                     std::tie(routes[i - 1].pattern, routes[i - 1].method)) {
      return label(routes[i]) + ": out of order or twice";
    }
    for (std::size_t earlier = 0; earlier < i; ++earlier) {
      if (can_meet(routes[earlier], routes[i])) {
        return label(routes[i]) + ": a path could also fit " + routes[earlier].pattern;
      }
    }
  }
  return std::nullopt;
}

RouteTable::RouteTable(std::vector<Route> routes) : routes_(std::move(routes)) {
  assert(!fault_in(routes_));
  for (const Route& route : routes_) {
    patterns_.push_back(*PathPattern::parse(route.pattern));
  }
  assert(patterns_.size() == routes_.size());
}

std::variant<RouteMatch, RouteMiss> RouteTable::find(std::string_view method,
                                                     std::string_view path) const {
  const std::optional<Method> wanted = method_from_name(method);
  const std::optional<std::vector<std::string>> segments = path_segments(path);
  RouteMiss miss;
  if (!segments) {
    return miss;
  }
  for (std::size_t i = 0; i < routes_.size(); ++i) {
    std::optional<Context::Parts> parts = patterns_[i].match(*segments);
    if (!parts) {
      continue;
    }
    if (wanted == routes_[i].method) {
      return RouteMatch{&routes_[i], std::move(*parts)};
    }
    if (std::find(miss.allowed.begin(), miss.allowed.end(), routes_[i].method) ==
        miss.allowed.end()) {
      miss.allowed.push_back(routes_[i].method);
    }
  }
  return miss;
}

}  // namespace benchwarden::http
