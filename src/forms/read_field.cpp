#include "forms/read_field.h"

#include <optional>
#include <utility>

#include "base/text.h"
#include "forms/thing_class.h"
#include "forms/type_names.h"

namespace benchwarden::forms {
namespace {

using entries::FieldType;

constexpr std::int64_t kTextLengthMax = 2000;
constexpr std::int64_t kRowsMax = 200;

std::optional<FieldType> find_type(std::string_view name) {
  for (const auto& [key, type] : kTypeNames) {
    if (key == name) return type;
  }
  return std::nullopt;
}

/// A whole number kept within its range; a fault and the fallback otherwise.
std::size_t read_count(std::string_view name, std::size_t fallback, std::int64_t max,
                       base::TomlReader& reader) {
  const std::int64_t count = reader.integer_or(name, static_cast<std::int64_t>(fallback));
  if (count >= 1 && count <= max) return static_cast<std::size_t>(count);
  reader.fault("'" + std::string(name) + "' must be 1 to " + std::to_string(max));
  return fallback;
}

std::optional<Band> read_band(std::string_view name, base::TomlReader& reader) {
  const std::vector<std::string> ends = reader.texts(name);
  if (ends.empty()) return std::nullopt;
  const std::string quoted = "'" + std::string(name) + "'";
  if (ends.size() != 2) {
    reader.fault(quoted + " must hold two texts, lowest and highest");
    return std::nullopt;
  }
  const auto lowest = base::parse_decimal(ends[0]);
  const auto highest = base::parse_decimal(ends[1]);
  if (!lowest) reader.fault(quoted + ": " + lowest.error().detail);
  if (!highest) reader.fault(quoted + ": " + highest.error().detail);
  if (!lowest || !highest) return std::nullopt;
  return Band{*lowest, *highest};
}

void read_quantity(FieldDefinition& field, base::TomlReader& reader) {
  const std::string unit = reader.text("unit");
  field.unit = quantities::find_unit(unit);
  if (field.unit == nullptr) reader.fault("unit '" + unit + "' is not known");
  field.whole = reader.boolean_or("whole", false);
  field.normal = read_band("normal", reader);
  const auto possible = read_band("possible", reader);
  if (!possible) reader.fault("'possible' is missing: what lies outside it is refused");
  field.possible = possible.value_or(Band{});
}

void read_id(FieldDefinition& field, base::TomlReader& reader) {
  field.thing_class = reader.text_or("class", "");
  field.class_field = reader.text_or("class_field", "");
  field.must_be_in_service = reader.boolean_or("in_service", false);
  field.may_be_retired = reader.boolean_or("may_be_retired", false);
  field.usual_chapters = reader.texts("usual_chapters");
  if (field.thing_class.empty() == field.class_field.empty()) {
    reader.fault("an id names its 'class' or its 'class_field', one of the two");
  } else if (!field.thing_class.empty() && !is_known_class(field.thing_class)) {
    reader.fault("class '" + field.thing_class + "' is not known");
  }
}

void read_tense(FieldDefinition& field, base::TomlReader& reader) {
  const std::string tense = reader.text_or("tense", "");
  if (tense == "past") field.tense = Tense::kPast;
  if (tense == "future") field.tense = Tense::kFuture;
  if (!tense.empty() && field.tense == Tense::kAny) {
    reader.fault("'tense' must be past or future");
  }
}

void read_text(FieldDefinition& field, base::TomlReader& reader) {
  field.length_max = read_count("length_max", field.length_max, kTextLengthMax, reader);
  read_tense(field, reader);
  const auto format = reader.maybe_text("format");
  if (!format) return;
  const auto known = find_text_format(*format);
  if (!known) reader.fault("format '" + *format + "' is not known");
  field.format = known.value_or(TextFormat::kAny);
}

void read_list(FieldDefinition& field, base::TomlReader& reader, base::FileFaults& faults) {
  field.rows_max = read_count("rows_max", field.rows_max, kRowsMax, reader);
  for (const base::Toml* column : reader.tables("columns")) {
    field.columns.push_back(read_field(*column, reader.file(), faults));
  }
  field.at_least_one = read_at_least_one(reader, faults);
}

void read_by_type(FieldDefinition& field, base::TomlReader& reader, base::FileFaults& faults) {
  switch (field.type) {
    case FieldType::kQuantity:
      return read_quantity(field, reader);
    case FieldType::kId:
      return read_id(field, reader);
    case FieldType::kDate:
      return read_tense(field, reader);
    case FieldType::kCode:
      field.options = read_options("options", reader, faults);
      field.usual_codes = reader.texts("usual");
      return;
    case FieldType::kText:
      return read_text(field, reader);
    case FieldType::kList:
      return read_list(field, reader, faults);
  }
}

}  // namespace

std::vector<CodeOption> read_options(std::string_view name, base::TomlReader& reader,
                                     base::FileFaults& faults) {
  std::vector<CodeOption> options;
  for (const base::Toml* toml : reader.tables(name)) {
    base::TomlReader option(*toml, reader.file(), faults);
    options.push_back({option.text("code"), option.text("label")});
    option.finish();
  }
  return options;
}

FieldDefinition read_field(const base::Toml& toml, const std::string& file,
                           base::FileFaults& faults) {
  base::TomlReader reader(toml, file, faults);
  FieldDefinition field;
  field.line = toml.line;
  field.name = reader.text("name");
  field.label = reader.text("label");
  field.help = reader.text("help");
  field.required = reader.boolean_or("required", false);
  field.retired = reader.boolean_or("retired", false);
  field.fixed = reader.boolean_or("fixed", false);
  field.since_version = static_cast<int>(reader.integer_or("since", 1));
  field.when = read_conditions("when", reader, faults);
  field.required_when = read_conditions("required_when", reader, faults);
  const std::string type_name = reader.text("type");
  const auto type = find_type(type_name);
  if (!type) {
    reader.fault("type '" + type_name + "' is not known");
    return field;  // without its type, no telling which other members belong
  }
  field.type = *type;
  read_by_type(field, reader, faults);
  reader.finish();
  return field;
}

Conditions read_conditions(std::string_view name, base::TomlReader& reader,
                           base::FileFaults& faults) {
  Conditions conditions;
  for (const base::Toml* toml : reader.tables(name)) {
    base::TomlReader condition(*toml, reader.file(), faults);
    conditions.push_back({condition.text("field"), condition.texts("codes")});
    condition.finish();
  }
  return conditions;
}

std::vector<AtLeastOne> read_at_least_one(base::TomlReader& reader, base::FileFaults& faults) {
  std::vector<AtLeastOne> groups;
  for (const base::Toml* toml : reader.tables("at_least_one")) {
    base::TomlReader group(*toml, reader.file(), faults);
    const std::vector<std::string> fields = group.texts("fields");
    groups.push_back({fields, read_conditions("when", group, faults), toml->line});
    group.finish();
  }
  return groups;
}

}  // namespace benchwarden::forms
