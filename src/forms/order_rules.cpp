#include "forms/order_rules.h"

#include "forms/shown.h"

namespace benchwarden::forms {
namespace {

using base::CivilDate;
using quantities::Quantity;

/// The attributes of the thing that a register entry changes, or nothing.
entries::Fields attributes_of(const Definition& definition, const ReadForm& form,
                              const Surroundings& surroundings) {
  for (const EffectDefinition& effect : definition.effects) {
    if (effect.effect != "changes") continue;
    const FieldDefinition* thing_field = find_field(definition, effect.roles.at("thing"));
    const auto* id = entries::find_field_as<entries::Id>(form.fields, thing_field->name);
    const auto* thing_class =
        entries::find_field_as<entries::Code>(form.fields, thing_field->class_field);
    if (id == nullptr || thing_class == nullptr) continue;
    if (const auto thing = surroundings.thing(thing_class->slug, id->slug)) {
      return thing->attributes;
    }
  }
  return {};
}

class OrderCheck {
 public:
  OrderCheck(const ReadForm& form, const Original& original, const entries::Fields& standing,
             entries::Refusals& refusals)
      : form_(form), original_(original), standing_(standing), refusals_(refusals) {}

  void run(const InOrder& order) {
    std::string earlier;
    for (const std::string& name : order.fields) {
      if (value(name) == nullptr) continue;
      const bool given = form_.given.contains(name) || form_.given.contains(earlier);
      if (!earlier.empty() && given) compare(earlier, name, order.days_max);
      earlier = name;
    }
  }

 private:
  /// What the entry says, or what stands in the register where it says nothing of it.
  [[nodiscard]] const entries::FieldValue* value(const std::string& name) const {
    if (const auto* said = entries::find_field(form_.fields, name)) return said;
    if (form_.unreadable.contains(name) || original_.cleared.contains(name)) return nullptr;
    return entries::find_field(standing_, name);
  }

  void compare(const std::string& earlier, const std::string& later, int days_max) {
    const bool later_given = form_.given.contains(later);
    const std::string& blamed = later_given ? later : earlier;
    if (const auto* from = std::get_if<CivilDate>(value(earlier))) {
      const auto& until = std::get<CivilDate>(*value(later));
      if (*from <= until) return check_span(earlier, *from, later, until, days_max);
      refuse(blamed, base::format_date(later_given ? until : *from),
             later_given ? "≥ " + base::format_date(*from) : "≤ " + base::format_date(until));
      return;
    }
    const auto& low = std::get<Quantity>(*value(earlier));
    const auto& high = std::get<Quantity>(*value(later));
    if (low.value < high.value) return;
    const Quantity& given = later_given ? high : low;
    const Quantity& other = later_given ? low : high;
    refuse(blamed, shown_amount(given.value, *given.unit),
           (later_given ? "> " : "< ") + shown_amount(other.value, *other.unit));
  }

  void check_span(const std::string& earlier, CivilDate from, const std::string& later,
                  CivilDate until, int days_max) {
    if (days_max == 0 || base::days_between(from, until) < days_max) return;
    if (form_.given.contains(later)) {
      refuse(later, base::format_date(until),
             "≤ " + base::format_date(base::add_days(from, days_max - 1)));
    } else {
      refuse(earlier, base::format_date(from),
             "≥ " + base::format_date(base::add_days(until, 1 - days_max)));
    }
  }

  void refuse(const std::string& field, std::string value, std::string accepted) {
    refusals_.push_back({"/fields/" + field, entries::RefusalCode::kOutOfOrder, std::move(value),
                         std::move(accepted)});
  }

  const ReadForm& form_;
  const Original& original_;
  const entries::Fields& standing_;
  entries::Refusals& refusals_;
};

}  // namespace

void check_order(const Definition& definition, const ReadForm& form, const Original& original,
                 const Surroundings& surroundings, entries::Refusals& refusals) {
  if (definition.in_order.empty()) return;
  // A correction lies over what its entry said, not over what stands today.
  const entries::Fields standing = original.fields == nullptr
                                       ? attributes_of(definition, form, surroundings)
                                       : entries::Fields();
  OrderCheck check(form, original, standing, refusals);
  for (const InOrder& order : definition.in_order) check.run(order);
}

}  // namespace benchwarden::forms
