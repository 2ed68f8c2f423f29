#include "forms/hold_rules.h"

#include <algorithm>

#include "base/text.h"

namespace benchwarden::forms {
namespace {

using entries::RefusalCode;
using Hold = Surroundings::Hold;

constexpr std::string_view kHold = "hold";
constexpr std::string_view kAuthority = "authority";
constexpr std::string_view kScope = "scope";

std::string text_in(const entries::Fields& fields, std::string_view name) {
  const auto* text = entries::find_field_as<entries::Text>(fields, name);
  return text == nullptr ? std::string() : text->text;
}

bool lifts(const entries::Fields& fields) {
  const auto* code = entries::find_field_as<entries::Code>(fields, kHold);
  return code != nullptr && code->slug == "lifted";
}

/// Whether the entry names another hold than it did, or does something else with it.
bool is_new(const ReadForm& form, const Original& original) {
  if (original.fields == nullptr || !lifts(*original.fields)) return true;
  const auto same = [&](std::string_view name) {
    return text_in(form.fields, name) == text_in(*original.fields, name);
  };
  return !same(kAuthority) || !same(kScope);
}

/// "State office (All manifests), …"
std::string shown(const std::vector<Hold>& holds) {
  std::vector<std::string> all;
  for (const Hold& hold : holds) all.push_back(hold.authority + " (" + hold.scope + ")");
  return base::join(all, ", ");
}

}  // namespace

void check_hold(const Definition& definition, const ReadForm& form, const Original& original,
                const ReadContext& context, entries::Refusals& refusals) {
  if (definition.kind != kHold || !lifts(form.fields) || !is_new(form, original)) return;
  const std::string authority = text_in(form.fields, kAuthority);
  if (authority.empty() || form.unreadable.contains(kScope)) return;
  std::vector<Hold> standing = context.surroundings.holds(context.corrects);
  std::erase_if(standing, [&](const Hold& hold) { return hold.placed_at > context.occurred_at; });
  const auto refuse = [&](std::string_view field, RefusalCode code, const std::string& value,
                          const std::vector<Hold>& accepted) {
    refusals.push_back({"/fields/" + std::string(field), code, value, shown(accepted)});
  };
  std::vector<Hold> of_authority = standing;
  std::erase_if(of_authority, [&](const Hold& hold) { return hold.authority != authority; });
  if (of_authority.empty()) {
    return refuse(kAuthority, RefusalCode::kNotPlaced, authority, standing);
  }
  const std::string scope = text_in(form.fields, kScope);
  if (scope.empty()) {
    if (of_authority.size() > 1) refuse(kScope, RefusalCode::kMissing, "", of_authority);
    return;
  }
  const bool stands = std::any_of(of_authority.begin(), of_authority.end(),
                                  [&](const Hold& hold) { return hold.scope == scope; });
  if (!stands) refuse(kScope, RefusalCode::kNotPlaced, scope, of_authority);
}

}  // namespace benchwarden::forms
