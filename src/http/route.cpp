#include "http/route.h"

#include <algorithm>
#include <array>
#include <cassert>

namespace benchwarden::http {
namespace {

constexpr std::array<std::string_view, 5> kMethodNames = {"GET", "POST", "PUT", "PATCH", "DELETE"};

}  // namespace

std::string_view method_name(Method method) {
  return kMethodNames.at(static_cast<std::size_t>(method));
}

std::optional<Method> method_from_name(std::string_view name) {
  if (name == "HEAD") {
    return Method::kGet;
  }
  const auto* const found = std::find(kMethodNames.begin(), kMethodNames.end(), name);
  if (found == kMethodNames.end()) {
    return std::nullopt;
  }
  return static_cast<Method>(found - kMethodNames.begin());
}

const std::string& Context::part(std::string_view name) const {
  const auto found =
      std::find_if(parts_.begin(), parts_.end(), [&](const auto& p) { return p.first == name; });
  assert(found != parts_.end());
  return found->second;
}

const SignedIn& Context::who() const {
  assert(caller_.who.has_value());
  return *caller_.who;
}

}  // namespace benchwarden::http
