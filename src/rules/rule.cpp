#include "rules/rule.h"

namespace benchwarden::rules {

const RuleFigure* Rule::figure(std::string_view name) const {
  const auto found = figures.find(name);
  return found == figures.end() ? nullptr : &found->second;
}

std::string_view Rule::setting(std::string_view name) const {
  const auto found = settings.find(name);
  return found == settings.end() ? std::string_view() : std::string_view(found->second);
}

findings::Authority Rule::authority_of(const RuleFigure& figure) const {
  findings::Authority found = authority;
  found.confidence = figure.confidence;
  return found;
}

}  // namespace benchwarden::rules
