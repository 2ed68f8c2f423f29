#include "forms/envelope_columns.h"
#include "forms/schema.h"
#include "forms/type_names.h"

namespace benchwarden::forms {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;
using entries::FieldType;

Json texts_json(const std::vector<std::string>& texts) {
  return JsonArray(texts.begin(), texts.end());
}

Json conditions_json(const Conditions& conditions) {
  JsonArray items;
  for (const Condition& condition : conditions) {
    items.emplace_back(
        JsonObject{{"field", condition.field}, {"codes", texts_json(condition.codes)}});
  }
  return items;
}

Json unit_json(const quantities::Unit& unit) {
  return JsonObject{{"id", unit.id}, {"symbol", unit.symbol}};
}

Json band_json(const Band& band) {
  return JsonObject{{"lowest", band.lowest}, {"highest", band.highest}};
}

Json groups_json(const std::vector<AtLeastOne>& groups) {
  JsonArray items;
  for (const AtLeastOne& group : groups) {
    items.emplace_back(
        JsonObject{{"fields", texts_json(group.fields)}, {"when", conditions_json(group.when)}});
  }
  return items;
}

Json fields_json(const std::vector<FieldDefinition>& fields);

void add_quantity(JsonObject& json, const FieldDefinition& field) {
  JsonArray units;
  for (const quantities::Unit* unit : quantities::units_of(field.unit->dimension)) {
    units.emplace_back(unit_json(*unit));
  }
  json.emplace_back("unit", unit_json(*field.unit));
  json.emplace_back("units", std::move(units));
  json.emplace_back("whole", field.whole);
  if (field.normal) json.emplace_back("normal", band_json(*field.normal));
  json.emplace_back("possible", band_json(field.possible));
}

void add_code(JsonObject& json, const FieldDefinition& field) {
  JsonArray options;
  for (const CodeOption& option : field.options) {
    options.emplace_back(JsonObject{{"code", option.code}, {"label", option.label}});
  }
  json.emplace_back("options", std::move(options));
  if (!field.usual_codes.empty()) json.emplace_back("usual", texts_json(field.usual_codes));
}

void add_by_type(JsonObject& json, const FieldDefinition& field) {
  if (field.type == FieldType::kQuantity) add_quantity(json, field);
  if (field.type == FieldType::kCode) add_code(json, field);
  if (field.type == FieldType::kId && !field.thing_class.empty()) {
    json.emplace_back("thing_class", field.thing_class);
    json.emplace_back("in_service", field.must_be_in_service);
    json.emplace_back("usual_chapters", texts_json(field.usual_chapters));
  }
  if (field.type == FieldType::kId && !field.class_field.empty()) {
    json.emplace_back("class_field", field.class_field);
  }
  if (field.type == FieldType::kText) {
    json.emplace_back("length_max", static_cast<std::uint64_t>(field.length_max));
    if (field.format != TextFormat::kAny) {
      json.emplace_back("format", text_format_name(field.format));
    }
  }
  if (field.type == FieldType::kList) {
    json.emplace_back("columns", fields_json(field.columns));
    json.emplace_back("rows_max", static_cast<std::uint64_t>(field.rows_max));
    json.emplace_back("at_least_one", groups_json(field.at_least_one));
  }
}

Json field_json(const FieldDefinition& field) {
  JsonObject json{{"name", field.name},
                  {"label", field.label},
                  {"help", field.help},
                  {"type", type_name(field.type)},
                  {"required", field.required},
                  {"fixed", field.fixed},
                  {"when", conditions_json(field.when)},
                  {"required_when", conditions_json(field.required_when)}};
  add_by_type(json, field);
  return json;
}

Json fields_json(const std::vector<FieldDefinition>& fields) {
  JsonArray items;
  for (const FieldDefinition& field : fields) {
    if (!field.retired) items.emplace_back(field_json(field));
  }
  return items;
}

Json attachments_json(const std::optional<AttachmentsDefinition>& attachments) {
  if (!attachments) return nullptr;
  return JsonObject{{"label", attachments->label},
                    {"help", attachments->help},
                    {"max", static_cast<std::uint64_t>(attachments->max)}};
}

}  // namespace

Json definition_json(const Definition& definition) {
  return JsonObject{{"kind", definition.kind},
                    {"version", definition.version},
                    {"title", definition.title},
                    {"purpose", definition.purpose},
                    {"roles_allowed", texts_json(definition.roles_allowed)},
                    {"cautions", texts_json(definition.cautions)},
                    {"correctable", definition.correctable},
                    {"attachments", attachments_json(definition.attachments)},
                    {"fields", fields_json(definition.fields)},
                    {"at_least_one", groups_json(definition.at_least_one)}};
}

std::vector<std::string> csv_columns(const Definition& definition) {
  std::vector<std::string> columns(kEnvelopeColumns.begin(), kEnvelopeColumns.end());
  for (const FieldDefinition& field : definition.fields) columns.push_back(field.name);
  return columns;
}

}  // namespace benchwarden::forms
