#include "forms/schema.h"

#include "forms/attachments.h"

namespace benchwarden::forms {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;
using entries::FieldType;

enum class Direction { kIn, kOut };

constexpr std::string_view kSlugPattern = "^[a-z][a-z0-9-]{0,39}$";

Json string_schema(std::string_view pattern) {
  return JsonObject{{"type", "string"}, {"pattern", pattern}};
}

Json quantity_schema(const FieldDefinition& field, Direction direction) {
  JsonObject number{{"type", field.whole ? "integer" : "number"}};
  if (direction == Direction::kOut) return number;
  number.emplace_back("minimum", field.possible.lowest);
  number.emplace_back("maximum", field.possible.highest);
  JsonArray units;
  for (const quantities::Unit* unit : quantities::units_of(field.unit->dimension)) {
    units.emplace_back(unit->id);
  }
  JsonObject with_unit{{"type", "object"},
                       {"required", JsonArray{"value", "unit"}},
                       {"properties", JsonObject{{"value", JsonObject{{"type", "number"}}},
                                                 {"unit", JsonObject{{"enum", std::move(units)}}}}},
                       {"additionalProperties", false}};
  return JsonObject{{"oneOf", JsonArray{std::move(number), std::move(with_unit)}}};
}

Json code_schema(const FieldDefinition& field) {
  JsonArray codes;
  for (const CodeOption& option : field.options) codes.emplace_back(option.code);
  return JsonObject{{"enum", std::move(codes)}};
}

Json text_schema(const FieldDefinition& field) {
  JsonObject text{{"type", "string"},
                  {"minLength", 1},
                  {"maxLength", static_cast<std::uint64_t>(field.length_max)}};
  const std::string_view pattern = text_format_pattern(field.format);
  if (!pattern.empty()) text.emplace_back("pattern", pattern);
  return text;
}

Json names_json(const std::vector<std::string>& names) {
  return JsonArray(names.begin(), names.end());
}

/// "One of these is there."
Json any_of(const AtLeastOne& group) {
  JsonArray choices;
  for (const std::string& name : group.fields) {
    choices.emplace_back(JsonObject{{"required", JsonArray{name}}});
  }
  return JsonObject{{"anyOf", std::move(choices)}};
}

Json if_schema(const Condition& condition) {
  JsonObject properties{{condition.field, JsonObject{{"enum", names_json(condition.codes)}}}};
  return JsonObject{{"properties", std::move(properties)},
                    {"required", JsonArray{condition.field}}};
}

/// "All conditions hold", as a schema of `fields`.
Json if_schema(const Conditions& conditions) {
  if (conditions.size() == 1) return if_schema(conditions.front());
  JsonArray parts;
  for (const Condition& condition : conditions) parts.emplace_back(if_schema(condition));
  return JsonObject{{"allOf", std::move(parts)}};
}

Json field_schema(const FieldDefinition& field, Direction direction);

Json row_schema(const FieldDefinition& field, Direction direction) {
  JsonObject properties;
  JsonArray required;
  for (const FieldDefinition& column : field.columns) {
    properties.emplace_back(column.name, field_schema(column, direction));
    if (column.required && direction == Direction::kIn) required.emplace_back(column.name);
  }
  JsonObject row{
      {"type", "object"}, {"properties", std::move(properties)}, {"additionalProperties", false}};
  if (!required.empty()) row.emplace_back("required", std::move(required));
  if (direction == Direction::kIn && !field.at_least_one.empty()) {
    JsonArray all;
    for (const AtLeastOne& group : field.at_least_one) all.emplace_back(any_of(group));
    row.emplace_back("allOf", std::move(all));
  }
  return row;
}

Json field_schema(const FieldDefinition& field, Direction direction) {
  switch (field.type) {
    case FieldType::kQuantity:
      return quantity_schema(field, direction);
    case FieldType::kId:
      return string_schema(kSlugPattern);
    case FieldType::kDate:
      return JsonObject{{"type", "string"}, {"format", "date"}};
    case FieldType::kCode:
      return code_schema(field);
    case FieldType::kText:
      return text_schema(field);
    case FieldType::kList:
      return JsonObject{{"type", "array"},
                        {"minItems", 1},
                        {"maxItems", static_cast<std::uint64_t>(field.rows_max)},
                        {"items", row_schema(field, direction)}};
  }
  return nullptr;
}

/// What conditions say about one field: required when they hold, absent when they do not.
void add_conditions(const FieldDefinition& field, JsonArray& all) {
  const Json must = JsonObject{{"required", JsonArray{field.name}}};
  if (!field.when.empty()) {
    JsonObject rule{{"if", if_schema(field.when)}};
    if (field.required) rule.emplace_back("then", must);
    rule.emplace_back("else", JsonObject{{"properties", JsonObject{{field.name, false}}}});
    all.emplace_back(std::move(rule));
  }
  if (!field.required_when.empty()) {
    Conditions both = field.when;
    both.insert(both.end(), field.required_when.begin(), field.required_when.end());
    all.emplace_back(JsonObject{{"if", if_schema(both)}, {"then", must}});
  }
}

Json submitted_fields(const Definition& definition) {
  JsonObject properties;
  JsonArray required;
  JsonArray all;
  for (const FieldDefinition& field : definition.fields) {
    if (field.retired) continue;
    properties.emplace_back(field.name, field_schema(field, Direction::kIn));
    if (field.required && field.when.empty()) required.emplace_back(field.name);
    add_conditions(field, all);
  }
  for (const AtLeastOne& group : definition.at_least_one) {
    if (group.when.empty()) {
      all.emplace_back(any_of(group));
    } else {
      all.emplace_back(JsonObject{{"if", if_schema(group.when)}, {"then", any_of(group)}});
    }
  }
  JsonObject schema{{"type", "object"},
                    {"properties", std::move(properties)},
                    {"additionalProperties", definition.kind == kCorrectionKind}};
  if (!required.empty()) schema.emplace_back("required", std::move(required));
  if (!all.empty()) schema.emplace_back("allOf", std::move(all));
  return schema;
}

Json attachments_schema(std::size_t max) {
  return JsonObject{{"type", "array"},
                    {"maxItems", static_cast<std::uint64_t>(max)},
                    {"uniqueItems", true},
                    {"items", string_schema(text_format_pattern(TextFormat::kSha256))}};
}

Json uuid_schema() { return JsonObject{{"type", "string"}, {"format", "uuid"}}; }

}  // namespace

Json submission_schema(const Definition& definition) {
  JsonObject properties{
      {"id", uuid_schema()},
      {"kind", JsonObject{{"const", definition.kind}}},
      {"occurred_at", JsonObject{{"type", "string"}, {"format", "date-time"}}},
      {"fields", submitted_fields(definition)},
      {"confirmed",
       JsonObject{{"type", "array"}, {"items", JsonObject{{"type", "string"}, {"minLength", 1}}}}},
      {"device_seq", JsonObject{{"type", JsonArray{"integer", "null"}}, {"minimum", 0}}},
      {"clock_offset_ms", JsonObject{{"type", JsonArray{"integer", "null"}}}},
      {"person", JsonObject{{"type", JsonArray{"string", "null"}}}},
      {"claimed", JsonObject{{"type", JsonArray{"boolean", "null"}}}},
  };
  if (definition.attachments) {
    properties.emplace_back("attachments", attachments_schema(definition.attachments->max));
  }
  JsonArray required{"id", "kind", "occurred_at", "fields"};
  if (definition.kind == kCorrectionKind) {
    properties.emplace_back("corrects", uuid_schema());
    properties.emplace_back("attachments", attachments_schema(kAttachmentsMax));
    properties.emplace_back("reason",
                            JsonObject{{"type", "string"}, {"minLength", 1}, {"maxLength", 500}});
    required.emplace_back("corrects");
    required.emplace_back("reason");
  }
  return JsonObject{{"type", "object"},
                    {"title", definition.title},
                    {"description", definition.purpose},
                    {"properties", std::move(properties)},
                    {"required", std::move(required)},
                    {"additionalProperties", false}};
}

Json fields_schema(const Definition& definition) {
  JsonObject properties;
  for (const FieldDefinition& field : definition.fields) {
    properties.emplace_back(field.name, field_schema(field, Direction::kOut));
  }
  return JsonObject{{"type", "object"},
                    {"properties", std::move(properties)},
                    {"additionalProperties", definition.kind == kCorrectionKind}};
}

}  // namespace benchwarden::forms
