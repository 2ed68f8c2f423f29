#include "forms/month_rules.h"

namespace benchwarden::forms {
namespace {

using entries::RefusalCode;

const std::string* text_in(const entries::Fields& fields, std::string_view name) {
  const auto* text = entries::find_field_as<entries::Text>(fields, name);
  return text == nullptr ? nullptr : &text->text;
}

}  // namespace

void check_month_close(const Definition& definition, const ReadForm& form, const Original& original,
                       const ReadContext& context, entries::Refusals& refusals) {
  if (definition.kind != kMonthClose) return;
  const std::string* name = text_in(form.fields, "month");
  const auto month = name == nullptr ? base::Result<base::CivilMonth>(base::CivilMonth{})
                                     : base::parse_month(*name);
  if (name == nullptr || !month) return;  // could not be read, and was refused for it
  const bool is_new = original.fields == nullptr;
  const auto standing = context.surroundings.month(*month, context.corrects);
  const auto refuse = [&](const std::string& field, RefusalCode code, const std::string& value,
                          const std::string& accepted) {
    refusals.push_back({"/fields/" + field, code, value, accepted});
  };
  if (is_new || form.given.contains("month")) {
    if (context.occurred_at < standing.over_at) {
      return refuse("month", RefusalCode::kMonthRunning, *name, "");
    }
    if (standing.closed) return refuse("month", RefusalCode::kMonthClosed, *name, "");
  }
  const std::string* digest = text_in(form.fields, "figures_digest");
  const bool judged = is_new || form.given.contains("figures_digest");
  if (digest != nullptr && judged && *digest != standing.digest) {
    refuse("figures_digest", RefusalCode::kFiguresChanged, *digest, standing.digest);
  }
}

}  // namespace benchwarden::forms
