#include "reports/carrier_facts.h"

namespace benchwarden::reports {

CarrierFacts carrier_facts(const tallies::State& state, const std::string& id) {
  CarrierFacts facts{id, "", "", "", ""};
  const tallies::Thing* thing = state.thing("carrier", id);
  if (thing == nullptr) return facts;
  const entries::Fields& attributes = thing->attributes;
  facts.name = tallies::word(attributes, "name");
  facts.registration = tallies::word(attributes, "registration_number");
  const auto* expires = entries::find_field_as<base::CivilDate>(attributes, "registration_expires");
  if (expires != nullptr) facts.registration_expires = base::format_date(*expires);
  facts.telephone = tallies::word(attributes, "telephone");
  return facts;
}

}  // namespace benchwarden::reports
