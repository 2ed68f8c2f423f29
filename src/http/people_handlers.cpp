#include <string>
#include <utility>

#include "access/pin_rules.h"
#include "http/api_answers.h"
#include "http/api_handlers.h"

namespace benchwarden::http {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

JsonObject account_json(const access::Person& person,
                        const std::optional<access::Inspection>& inspection = std::nullopt) {
  JsonObject account = person_json(person);
  account.emplace_back("active", person.active);
  account.emplace_back("inspection", inspection_json(inspection));
  return account;
}

Json change_json(const access::Change& change) {
  return JsonObject{{"at", base::format_rfc3339_utc(change.at)},
                    {"by", change.by},
                    {"person", change.person},
                    {"what", change.what},
                    {"device", change.device ? Json(*change.device) : Json(nullptr)},
                    {"thing", change.thing ? Json(*change.thing) : Json(nullptr)}};
}

Json refusal_json(const access::Refusal& refusal) {
  return JsonObject{{"at", base::format_rfc3339_utc(refusal.at)},
                    {"person", refusal.person ? Json(*refusal.person) : Json(nullptr)},
                    {"reason", refusal.reason},
                    {"address", refusal.address}};
}

template <class Line, class Write>
JsonArray array_of(const std::vector<Line>& lines, Write write) {
  JsonArray array;
  for (const Line& line : lines) array.emplace_back(write(line));
  return array;
}

/// The person after a change that went well.
Response account_answer(const ApiPorts& ports, const std::string& id) {
  const auto person = ports.access.person(id);
  if (!person) return error_answer(person.error());
  const auto inspection = ports.access.inspection_of(id);
  if (!inspection) return error_answer(inspection.error());
  return json_answer(200, account_json(*person, *inspection));
}

/// The only member, true or false.
base::Result<bool, Response> read_active(const Request& request) {
  const auto json = base::parse_json(request.body);
  if (!json) return problem(ProblemType::kMalformed, json.error().detail);
  const base::JsonObject* members = json->object();
  if (members == nullptr) return problem(ProblemType::kMalformed, "an object is needed");
  const Json* active = json->find("active");
  if (active == nullptr || active->boolean() == nullptr) {
    return refused_value("/active", "'active' must be true or false");
  }
  if (members->size() > 1) return refused_value("", "accepted: the member 'active' alone");
  return *active->boolean();
}

}  // namespace

Response get_accounts(const ApiPorts& ports, const Request&, const Context&) {
  const auto people = ports.access.people();
  if (!people) return error_answer(people.error());
  const auto changes = ports.access.changes();
  if (!changes) return error_answer(changes.error());
  const auto refusals = ports.access.refusals();
  if (!refusals) return error_answer(refusals.error());
  JsonArray accounts;
  for (const access::Person& person : *people) {
    const auto inspection = ports.access.inspection_of(person.id);
    if (!inspection) return error_answer(inspection.error());
    accounts.emplace_back(account_json(person, *inspection));
  }
  return json_answer(200, JsonObject{{"people", std::move(accounts)},
                                     {"changes", array_of(*changes, change_json)},
                                     {"refusals", array_of(*refusals, refusal_json)}});
}

Response post_person(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto texts = read_text_members(request, {"name", "role", "pin"});
  if (!texts) return texts.error();
  const auto role = access::role_from_name((*texts)[1]);
  if (!role) {
    return refused_value(
        "/role", "role: '" + (*texts)[1] + "' is none; accepted: technician, manager, inspector");
  }
  if (const auto pin = access::check_pin((*texts)[2]); !pin) {
    return refused_value("/pin", pin.error().detail);
  }
  const auto added =
      ports.access.add_person((*texts)[0], *role, (*texts)[2], context.who().session.person);
  if (!added) return refused_member("/name", added.error());
  return json_answer(201, account_json(*added));
}

Response put_pin(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto texts = read_text_members(request, {"pin"});
  if (!texts) return texts.error();
  const std::string& id = context.part("id");
  const auto set = ports.access.reset_pin(id, texts->front(), context.who().session.person);
  if (!set) return refused_member("/pin", set.error());
  return account_answer(ports, id);
}

Response put_active(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto active = read_active(request);
  if (!active) return active.error();
  const std::string& id = context.part("id");
  const std::string& by = context.who().session.person;
  const auto set = *active ? ports.access.activate(id, by) : ports.access.deactivate(id, by);
  if (!set) return refused_member("/active", set.error());
  return account_answer(ports, id);
}

}  // namespace benchwarden::http
