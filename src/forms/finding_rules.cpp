#include "forms/finding_rules.h"

namespace benchwarden::forms {
namespace {

constexpr std::string_view kFinding = "finding";

std::string finding_in(const entries::Fields& fields) {
  const auto* key = entries::find_field_as<entries::Text>(fields, kFinding);
  return key == nullptr ? std::string() : key->text;
}

}  // namespace

void check_finding(const ReadForm& form, const Original& original, const ReadContext& context,
                   entries::Refusals& refusals) {
  const std::string key = finding_in(form.fields);
  if (key.empty()) return;
  if (original.fields != nullptr && finding_in(*original.fields) == key) return;
  if (context.surroundings.stands(key)) return;
  refusals.push_back(
      {"/fields/finding", entries::RefusalCode::kUnknownFinding, key, "GET /api/v1/findings"});
}

}  // namespace benchwarden::forms
