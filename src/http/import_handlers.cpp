#include <utility>

#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "workshop/register_import.h"

namespace benchwarden::http {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

struct ImportRequest {
  std::string toml;
  workshop::ImportMode mode = workshop::ImportMode::kRecord;
};

base::Result<ImportRequest, Response> read_import(const Request& request) {
  const auto json = base::parse_json(request.body);
  if (!json) return problem(ProblemType::kMalformed, json.error().detail);
  const JsonObject* members = json->object();
  if (members == nullptr) return problem(ProblemType::kMalformed, "an object is needed");
  ImportRequest wanted;
  std::vector<ProblemError> errors;
  const Json* toml = json->find("toml");
  if (toml == nullptr || toml->string() == nullptr) {
    errors.push_back({"/toml", "missing", "'toml' must be text"});
  } else {
    wanted.toml = *toml->string();
  }
  for (const auto& [name, value] : *members) {
    if (name == "dry_run" && value.boolean() != nullptr) {
      if (*value.boolean()) wanted.mode = workshop::ImportMode::kDryRun;
    } else if (name == "dry_run") {
      errors.push_back({"/dry_run", "wrong_type", "'dry_run' must be true or false"});
    } else if (name != "toml") {
      errors.push_back(
          {"/" + base::pointer_token(name), "unknown_member", "'" + name + "' is not known here"});
    }
  }
  if (errors.empty()) return wanted;
  return problem(ProblemType::kRefused, "some members cannot be used", errors);
}

Json things_json(const std::vector<workshop::ImportedThing>& things) {
  JsonArray items;
  for (const workshop::ImportedThing& thing : things) {
    items.emplace_back(JsonObject{{"thing_class", thing.thing_class},
                                  {"thing", thing.thing},
                                  {"act", act_name(thing.act)},
                                  {"fields", JsonArray(thing.fields.begin(), thing.fields.end())}});
  }
  return items;
}

Json faults_json(const workshop::ImportFaults& faults) {
  JsonArray items;
  for (const workshop::ImportFault& fault : faults) {
    items.emplace_back(JsonObject{{"line", fault.line > 0 ? Json(fault.line) : Json(nullptr)},
                                  {"thing", fault.thing},
                                  {"field", fault.field},
                                  {"code", fault.code},
                                  {"detail", fault.sentence}});
  }
  return items;
}

Response faults_answer(const workshop::ImportFaults& faults) {
  std::vector<ProblemError> errors;
  for (const workshop::ImportFault& fault : faults) {
    errors.push_back({"/toml", fault.code, workshop::format_import_fault("file", fault)});
  }
  return problem(ProblemType::kRefused, "nothing of the file was recorded", errors);
}

}  // namespace

Response post_register_import(const ApiPorts& ports, const Request& request,
                              const Context& context) {
  const auto wanted = read_import(request);
  if (!wanted) return wanted.error();
  const bool dry_run = wanted->mode == workshop::ImportMode::kDryRun;
  const auto outcome =
      import_register(ports.workshop, actor_of(context), wanted->toml, wanted->mode);
  if (const auto* error = std::get_if<base::Error>(&outcome)) return error_answer(*error);
  const auto* faults = std::get_if<workshop::ImportFaults>(&outcome);
  if (faults != nullptr && !dry_run) return faults_answer(*faults);
  const auto* things = std::get_if<std::vector<workshop::ImportedThing>>(&outcome);
  return json_answer(
      200, JsonObject{{"recorded", !dry_run},
                      {"things", things == nullptr ? Json(JsonArray{}) : things_json(*things)},
                      {"faults", faults == nullptr ? Json(JsonArray{}) : faults_json(*faults)}});
}

}  // namespace benchwarden::http
