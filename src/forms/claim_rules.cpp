#include "forms/claim_rules.h"

#include <set>

namespace benchwarden::forms {
namespace {

using entries::RefusalCode;
using quantities::Quantity;

constexpr std::string_view kEntries = "entries";
constexpr std::string_view kNumber = "entries.number";
constexpr std::int64_t kThousandths = 1000;

/// What is wrong with answering for the entry of that number; none where nothing is.
std::optional<RefusalCode> fault_of(const Surroundings& surroundings, std::uint64_t number) {
  const auto claim = surroundings.claim(number);
  if (!claim) return RefusalCode::kUnknownNumber;
  if (!claim->own) return RefusalCode::kOthersEntry;
  if (claim->verified) return RefusalCode::kPinShown;
  if (!claim->open) return RefusalCode::kConfirmedBefore;
  return std::nullopt;
}

}  // namespace

void check_answer(const std::string& kind, const EffectDefinition& effect, const ReadForm& form,
                  const Original& original, const Surroundings& surroundings,
                  entries::Refusals& refusals) {
  if (original.fields != nullptr) return;
  if (!surroundings.person_verified()) {
    refusals.push_back({"/kind", RefusalCode::kPinNeeded, kind, ""});
    return;
  }
  const std::string& field = effect.roles.find(kEntries)->second;
  const std::string& column = effect.roles.find(kNumber)->second;
  const auto* list = entries::find_field_as<entries::List>(form.fields, field);
  if (list == nullptr) return;  // missing or unreadable, and refused for it
  std::set<std::int64_t> named;
  for (std::size_t i = 0; i < list->rows.size(); ++i) {
    const auto* given = entries::find_scalar_as<Quantity>(list->rows[i], column);
    if (given == nullptr) continue;
    const std::int64_t number = given->value.thousandths / kThousandths;
    const auto fault = named.insert(number).second
                           ? fault_of(surroundings, static_cast<std::uint64_t>(number))
                           : RefusalCode::kNamedTwice;
    if (!fault) continue;
    refusals.push_back({"/fields/" + field + "/" + std::to_string(i) + "/" + column, *fault,
                        std::to_string(number), ""});
  }
}

void check_answer_strike_out(const ReadContext& context, entries::Refusals& refusals) {
  const Surroundings& surroundings = context.surroundings;
  if (!surroundings.person_verified()) {
    refusals.push_back(
        {"/corrects", RefusalCode::kPinNeeded, base::format_uuid(*context.corrects), ""});
    return;
  }
  const auto target = surroundings.target(*context.corrects);
  if (target && !target->own) {
    refusals.push_back(
        {"/corrects", RefusalCode::kOthersEntry, base::format_uuid(*context.corrects), ""});
  }
}

}  // namespace benchwarden::forms
