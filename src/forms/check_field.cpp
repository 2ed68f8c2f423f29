#include "forms/check_field.h"

#include <algorithm>
#include <set>
#include <string>

#include "base/text.h"
#include "forms/envelope_columns.h"
#include "forms/thing_class.h"

namespace benchwarden::forms {
namespace {

using entries::FieldType;

/// Collects the faults of one field under its name and line.
class FieldFaults {
 public:
  FieldFaults(const FieldDefinition& field, const Definition& definition, base::FileFaults& faults)
      : field_(field), file_(definition.file), faults_(faults) {}
  void add(const std::string& reason) {
    faults_.push_back({file_, field_.line, "field '" + field_.name + "': " + reason});
  }

 private:
  const FieldDefinition& field_;
  const std::string& file_;
  base::FileFaults& faults_;
};

/// Whether a thousandth of the unit is a whole number of its dimension's smallest unit, so that
/// sums over a book stay exact.
bool is_exact(const quantities::Unit& unit) {
  return unit.numerator % (unit.denominator * 1000) == 0;
}

bool is_whole(base::Decimal value) { return value.thousandths % 1000 == 0; }

void check_bands(const FieldDefinition& field, FieldFaults& faults) {
  const Band& possible = field.possible;
  if (possible.lowest > possible.highest) faults.add("'possible' is out of order");
  if (field.normal) {
    const Band& normal = *field.normal;
    if (normal.lowest > normal.highest) faults.add("'normal' is out of order");
    if (normal.lowest < possible.lowest || normal.highest > possible.highest) {
      faults.add("'normal' reaches outside 'possible'");
    }
  }
  if (field.unit == nullptr) return;
  if (!field.whole && !is_exact(*field.unit)) {
    faults.add("thousandths of '" + std::string(field.unit->id) +
               "' cannot be kept exactly: take another unit, or 'whole = true'");
  }
  if (field.whole && !(is_whole(possible.lowest) && is_whole(possible.highest))) {
    faults.add("a whole number needs a 'possible' of whole numbers");
  }
}

void check_options(const FieldDefinition& field, FieldFaults& faults) {
  if (field.options.empty()) faults.add("a code needs 'options'");
  std::set<std::string> seen;
  for (const CodeOption& option : field.options) {
    if (!base::is_slug(option.code)) {
      faults.add("code '" + option.code + "' is not lower-case letters, digits and hyphens");
    }
    if (!seen.insert(option.code).second) faults.add("code '" + option.code + "' stands twice");
  }
  for (const std::string& code : field.usual_codes) {
    if (!seen.contains(code)) faults.add("'usual' names '" + code + "', which is no option");
  }
}

void check_class_field(const FieldDefinition& field, const Definition& definition,
                       FieldFaults& faults) {
  if (field.class_field.empty()) return;
  const FieldDefinition* other = find_field(definition, field.class_field);
  if (other == nullptr || other->line >= field.line || other->type != FieldType::kCode) {
    faults.add("'class_field' names no earlier code field");
    return;
  }
  for (const CodeOption& option : other->options) {
    if (!is_registered_class(option.code)) {
      faults.add("'" + option.code + "' of '" + other->name + "' is no class of the register");
    }
  }
}

/// A chapter of the List of Waste is two digits, "01" to "20" (Decision 2000/532/EC, Annex).
bool is_chapter(std::string_view text) {
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  return text.size() == 2 && is_digit(text[0]) && is_digit(text[1]) && text >= "01" && text <= "20";
}

void check_chapters(const FieldDefinition& field, FieldFaults& faults) {
  if (field.usual_chapters.empty()) return;
  if (field.thing_class != "container") faults.add("'usual_chapters' is for containers");
  for (const std::string& chapter : field.usual_chapters) {
    if (!is_chapter(chapter)) faults.add("'" + chapter + "' is no chapter of the List of Waste");
  }
}

void check_columns(const FieldDefinition& field, const Definition& definition, FieldFaults& faults,
                   base::FileFaults& all) {
  if (field.columns.empty()) faults.add("a list needs 'columns'");
  std::set<std::string> seen;
  for (const FieldDefinition& column : field.columns) {
    if (!seen.insert(column.name).second) faults.add("column '" + column.name + "' stands twice");
    if (column.type == FieldType::kList) faults.add("a list cannot hold a list");
    if (!column.when.empty() || !column.required_when.empty()) {
      faults.add("column '" + column.name + "' cannot have conditions");
    }
    check_field(column, definition, all);
  }
  for (const AtLeastOne& group : field.at_least_one) {
    if (!group.when.empty()) faults.add("'at_least_one' of a list cannot have conditions");
    if (group.fields.size() < 2) faults.add("'at_least_one' needs two columns or more");
    for (const std::string& name : group.fields) {
      if (!seen.contains(name)) faults.add("'at_least_one' names no column: '" + name + "'");
    }
  }
}

void check_tense(const FieldDefinition& field, FieldFaults& faults) {
  if (field.tense == Tense::kAny || field.format == TextFormat::kMonth) return;
  faults.add("'tense' is for dates and months");
}

void check_by_type(const FieldDefinition& field, const Definition& definition, FieldFaults& faults,
                   base::FileFaults& all) {
  if (field.type == FieldType::kQuantity) check_bands(field, faults);
  if (field.type == FieldType::kCode) check_options(field, faults);
  if (field.type == FieldType::kId) check_class_field(field, definition, faults);
  if (field.type == FieldType::kId) check_chapters(field, faults);
  if (field.type == FieldType::kText) check_tense(field, faults);
  if (field.type == FieldType::kList) check_columns(field, definition, faults, all);
}

}  // namespace

bool is_field_name(std::string_view name) {
  constexpr std::size_t kLengthMax = 40;
  const bool in_form = !name.empty() && name.size() <= kLengthMax && name.front() >= 'a' &&
                       name.front() <= 'z' && std::all_of(name.begin(), name.end(), [](char c) {
                         return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
                       });
  return in_form && std::find(kEnvelopeColumns.begin(), kEnvelopeColumns.end(), name) ==
                        kEnvelopeColumns.end();
}

void check_conditions(const Conditions& conditions, const Definition& definition, int before_line,
                      int line, base::FileFaults& faults) {
  for (const Condition& condition : conditions) {
    const auto fault = [&](const std::string& reason) {
      faults.push_back(
          {definition.file, line, "condition on '" + condition.field + "': " + reason});
    };
    const FieldDefinition* field = find_field(definition, condition.field);
    if (field == nullptr) {
      fault("there is no such field");
      continue;
    }
    if (before_line != 0 && field->line >= before_line) fault("it must stand earlier");
    if (field->type != FieldType::kCode) fault("only code fields decide");
    if (condition.codes.empty()) fault("'codes' is empty");
    for (const std::string& code : condition.codes) {
      if (field->type == FieldType::kCode && !has_option(*field, code)) {
        fault("it has no option '" + code + "'");
      }
    }
  }
}

void check_field(const FieldDefinition& field, const Definition& definition,
                 base::FileFaults& faults) {
  FieldFaults own(field, definition, faults);
  if (!is_field_name(field.name)) {
    own.add("a name is lower-case words with underscores, and not a member of every entry");
  }
  if (field.since_version < 1 || field.since_version > definition.version) {
    own.add("'since' must be 1 to the version of the form");
  }
  const bool demanded = field.required || !field.required_when.empty();
  if (field.since_version > 1 && demanded) {
    own.add("a field of a later version must be optional, for the sake of older entries");
  }
  if (field.required && !field.required_when.empty()) {
    own.add("'required' and 'required_when' exclude each other");
  }
  if (field.retired && demanded) own.add("a retired field cannot be required");
  check_conditions(field.when, definition, field.line, field.line, faults);
  check_conditions(field.required_when, definition, field.line, field.line, faults);
  check_by_type(field, definition, own, faults);
}

}  // namespace benchwarden::forms
