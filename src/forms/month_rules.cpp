#include "forms/month_rules.h"

namespace benchwarden::forms {
namespace {

using entries::RefusalCode;

const std::string* text_or_none(const entries::Fields& fields, std::string_view name) {
  const auto* text = entries::find_field_as<entries::Text>(fields, name);
  return text == nullptr ? nullptr : &text->text;
}

std::uint64_t whole(const quantities::Quantity& count) {
  constexpr std::int64_t kThousandths = 1000;
  return static_cast<std::uint64_t>(count.value.thousandths / kThousandths);
}

}  // namespace

void check_month_close(const Definition& definition, const ReadForm& form, const Original& original,
                       const ReadContext& context, entries::Refusals& refusals) {
  if (definition.kind != kMonthClose || original.fields != nullptr) return;
  const std::string* name = text_or_none(form.fields, "month");
  const auto month = name == nullptr ? base::Result<base::CivilMonth>(base::CivilMonth{})
                                     : base::parse_month(*name);
  if (name == nullptr || !month) return;  // could not be read, and was refused for it
  const auto standing = context.surroundings.month(*month, context.corrects);
  const auto refuse = [&](const std::string& field, RefusalCode code, const std::string& value,
                          const std::string& accepted) {
    refusals.push_back({"/fields/" + field, code, value, accepted});
  };
  if (context.occurred_at < standing.over_at) {
    return refuse("month", RefusalCode::kMonthRunning, *name, "");
  }
  if (*month < standing.begins) {
    return refuse("month", RefusalCode::kMonthBeforeBook, *name,
                  "≥ " + base::format_month(standing.begins));
  }
  if (standing.closed) return refuse("month", RefusalCode::kMonthClosed, *name, "");
  const std::string* digest = text_or_none(form.fields, "figures_digest");
  const auto* size = entries::find_field_as<quantities::Quantity>(form.fields, "book_size");
  if (digest != nullptr && *digest != standing.digest) {
    return refuse("figures_digest", RefusalCode::kFiguresChanged, *digest, standing.digest);
  }
  if (size == nullptr || form.unreadable.contains("figures_digest")) return;
  if (digest == nullptr) {
    return refuse("figures_digest", RefusalCode::kMissing, "", standing.digest);
  }
  if (context.surroundings.digest_at(*month, whole(*size)) != *digest) {
    refuse("book_size", RefusalCode::kImpossible, std::to_string(whole(*size)),
           std::to_string(standing.book_size));
  }
}

}  // namespace benchwarden::forms
