#include "workshop/signer.h"

#include <algorithm>
#include <utility>

#include "forms/claim.h"
#include "forms/shown.h"

namespace benchwarden::workshop {
namespace {

using entries::Refusals;

constexpr std::string_view kTechnician = "technician";
constexpr std::string_view kManager = "manager";

Refusals refusal(const char* pointer, entries::RefusalCode code, std::string value) {
  return {{pointer, code, std::move(value), ""}};
}

bool has(const std::vector<std::string>& roles, std::string_view role) {
  return std::find(roles.begin(), roles.end(), role) != roles.end();
}

/// The kind, where this role records it and a technician does not.
std::optional<std::string> kept_from_technicians(const forms::Catalog& catalog,
                                                 const base::Json& submission,
                                                 const std::string& role) {
  const base::Json* kind = submission.find("kind");
  if (kind == nullptr || kind->string() == nullptr) return std::nullopt;
  const forms::Definition* form = catalog.find(*kind->string());
  if (form == nullptr || !has(form->roles_allowed, role)) return std::nullopt;
  if (has(form->roles_allowed, kTechnician)) return std::nullopt;
  return form->kind;
}

/// Nobody's PIN stands behind it: the device does.
base::Result<Actor, Refusals> without_pin(const Ports& ports, const Sender& sender,
                                          const std::string& person, const base::Json& submission) {
  if (!sender.device) return refusal("/person", entries::RefusalCode::kNotPaired, person);
  const auto role = ports.names.active_role(person);
  if (!role) return refusal("/person", entries::RefusalCode::kUnknownPerson, person);
  const auto kept = kept_from_technicians(ports.definitions.catalog, submission, *role);
  if (kept) return refusal("/kind", entries::RefusalCode::kPinNeeded, *kept);
  return Actor{person, *role == kManager ? std::string(kTechnician) : *role, false, sender.device};
}

}  // namespace

base::Result<Actor, Refusals> signer_of(const Ports& ports, const Sender& sender,
                                        const base::Json& submission) {
  Refusals refusals;
  const forms::Claim claim = forms::read_claim(submission, refusals);
  if (!refusals.empty()) return refusals;
  if (!claim.person && !sender.signed_in) {
    return refusal("/person", entries::RefusalCode::kMissing, "");
  }
  const std::string person = claim.person ? *claim.person : sender.signed_in->person;
  const bool signed_in = sender.signed_in && sender.signed_in->person == person;
  if (!signed_in || claim.claimed) return without_pin(ports, sender, person, submission);
  Actor actor = *sender.signed_in;
  actor.device = sender.device;
  return actor;
}

}  // namespace benchwarden::workshop
