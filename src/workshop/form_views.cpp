#include "workshop/form_views.h"

#include <array>

#include "base/text.h"
#include "forms/schema.h"
#include "workshop/caution_views.h"
#include "workshop/site_units.h"

namespace benchwarden::workshop {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

std::string site_text(const tallies::State& state, std::string_view name) {
  const tallies::Thing* site = state.thing("workshop", "site");
  if (site == nullptr) return "";
  const auto* text = entries::find_field_as<entries::Text>(site->attributes, name);
  return text == nullptr ? "" : text->text;
}

/// Attributes of the site that a line of the emergency page may name.
constexpr std::array<std::string_view, 7> kNamed = {
    "name",        "address",         "emergency_phone",  "power_cut_off",
    "gas_cut_off", "spill_kit_place", "data_sheets_place"};

/// The line with its places filled in; empty when the register has nothing for one of them.
std::string filled_line(const tallies::State& state, const std::string& line) {
  std::vector<std::pair<std::string_view, std::string>> values;
  for (const std::string_view name : kNamed) {
    if (line.find("{" + std::string(name) + "}") == std::string::npos) continue;
    values.emplace_back(name, site_text(state, name));
    if (values.back().second.empty()) return "";
  }
  return base::fill(line, values);
}

/// The names a document's schemas go by: "Submission_oil-drained".
std::string schema_name(const std::string& kind) { return "Submission_" + kind; }

}  // namespace

Json list_forms(const Ports& ports) {
  JsonArray forms;
  for (const forms::Definition& definition : ports.definitions.catalog.definitions()) {
    forms.emplace_back(JsonObject{{"kind", definition.kind},
                                  {"version", definition.version},
                                  {"title", definition.title},
                                  {"purpose", definition.purpose}});
  }
  return JsonObject{{"forms", std::move(forms)}};
}

base::Result<Json> show_form(const Ports& ports, std::string_view kind) {
  const forms::Definition* definition = ports.definitions.catalog.find(kind);
  if (definition == nullptr) {
    std::vector<std::string> kinds;
    for (const forms::Definition& known : ports.definitions.catalog.definitions()) {
      kinds.push_back(known.kind);
    }
    return base::Error{base::ErrorCode::kNotFound, "there is no form '" + std::string(kind) +
                                                       "'; accepted: " + base::join(kinds, ", ")};
  }
  Json json = forms::definition_json(*definition);
  for (auto& [name, value] : *json.object()) {
    if (name == "cautions") value = cautions_json(ports.definitions, definition->cautions);
  }
  return json;
}

Json show_emergency(const Ports& ports) {
  const auto state = ports.live.view();
  JsonArray sections;
  for (const EmergencySection& section : ports.definitions.emergency.sections) {
    JsonArray lines;
    for (const std::string& line : section.lines) {
      std::string filled = filled_line(*state, line);
      if (!filled.empty()) lines.emplace_back(std::move(filled));
    }
    sections.emplace_back(JsonObject{{"title", section.title}, {"lines", std::move(lines)}});
  }
  return JsonObject{{"title", ports.definitions.emergency.title},
                    {"sections", std::move(sections)}};
}

Json shown_in(const Ports& ports) {
  const ShownIn told = shown_in_of(*ports.live.view());
  return JsonObject{{"units", told.units}, {"number_format", told.number_format}};
}

Json openapi(const Ports& ports) {
  Json document = ports.definitions.openapi;
  JsonArray one_of;
  JsonObject kinds;
  for (const forms::Definition& definition : ports.definitions.catalog.definitions()) {
    const std::string name = schema_name(definition.kind);
    one_of.emplace_back(JsonObject{{"$ref", "#/components/schemas/" + name}});
    kinds.emplace_back(name, forms::submission_schema(definition));
    kinds.emplace_back("Fields_" + definition.kind, forms::fields_schema(definition));
  }
  for (auto& [name, value] : *document.object()) {
    if (name != "components") continue;
    for (auto& [part, schemas] : *value.object()) {
      if (part != "schemas") continue;
      for (base::JsonMember& kind : kinds) schemas.object()->push_back(std::move(kind));
      schemas.object()->emplace_back("Submission", JsonObject{{"oneOf", std::move(one_of)}});
    }
  }
  return document;
}

}  // namespace benchwarden::workshop
