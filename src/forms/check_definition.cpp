#include "forms/check_definition.h"

#include <algorithm>
#include <array>
#include <set>
#include <string>

#include "base/text.h"
#include "forms/attachments.h"
#include "forms/check_field.h"
#include "forms/thing_class.h"

namespace benchwarden::forms {
namespace {

constexpr std::array<std::string_view, 4> kRoles{"technician", "manager", "inspector", "daemon"};

/// The last part of the path without its ending.
std::string_view stem(std::string_view path) {
  path.remove_prefix(path.find_last_of('/') + 1);
  return path.substr(0, path.find_last_of('.'));
}

void check_head(const Definition& definition, base::FileFaults& faults) {
  const auto fault = [&](const std::string& reason) {
    faults.push_back({definition.file, 1, reason});
  };
  if (!base::is_slug(definition.kind)) {
    fault("kind '" + definition.kind + "' is not lower-case letters, digits and hyphens");
  }
  if (stem(definition.file) != definition.kind) {
    fault("kind '" + definition.kind + "' must stand in a file of that name");
  }
  if (definition.version < 1) fault("'version' must be 1 or more");
  if (definition.roles_allowed.empty()) fault("'roles_allowed' is empty");
  for (const std::string& role : definition.roles_allowed) {
    if (std::find(kRoles.begin(), kRoles.end(), role) == kRoles.end()) {
      fault("role '" + role + "' is not known");
    }
  }
  for (const std::string& caution : definition.cautions) {
    if (!base::is_slug(caution)) fault("caution '" + caution + "' is no id");
  }
  if (definition.fields.empty()) fault("a form needs fields");
}

void check_at_least_one(const AtLeastOne& group, const Definition& definition,
                        base::FileFaults& faults) {
  const auto fault = [&](const std::string& reason) {
    faults.push_back({definition.file, group.line, "'at_least_one' " + reason});
  };
  if (group.fields.size() < 2) fault("needs two fields or more");
  for (const std::string& name : group.fields) {
    if (find_field(definition, name) == nullptr) fault("names no field: '" + name + "'");
  }
  check_conditions(group.when, definition, 0, group.line, faults);
}

void check_attachments(const AttachmentsDefinition& attachments, const std::string& file,
                       base::FileFaults& faults) {
  if (attachments.max >= 1 && attachments.max <= kAttachmentsMax) return;
  faults.push_back({file, attachments.line,
                    "'max' of the attachments must be 1 to " + std::to_string(kAttachmentsMax)});
}

void check_in_order(const InOrder& order, const Definition& definition, base::FileFaults& faults) {
  const auto fault = [&](const std::string& reason) {
    faults.push_back({definition.file, order.line, "'in_order' " + reason});
  };
  if (order.fields.size() < 2) fault("needs two fields or more");
  if (order.days_max < 0) fault("has a 'days_max' below 0");
  const FieldDefinition* first = nullptr;
  for (const std::string& name : order.fields) {
    const FieldDefinition* field = find_field(definition, name);
    if (field == nullptr) {
      fault("names no field: '" + name + "'");
      continue;
    }
    if (first == nullptr) first = field;
    const bool comparable =
        field->type == entries::FieldType::kDate || field->type == entries::FieldType::kQuantity;
    if (!comparable || field->type != first->type || field->unit != first->unit) {
      fault("compares dates, or quantities of one unit: not '" + name + "'");
    }
    if (order.days_max > 0 && field->type != entries::FieldType::kDate) {
      fault("has 'days_max' and compares what is no date: '" + name + "'");
    }
  }
}

void check_use(const Use& use, const Definition& definition, base::FileFaults& faults) {
  const FieldDefinition* field = find_field(definition, use.field);
  if (field == nullptr || !is_registered_class(field->thing_class)) {
    faults.push_back({definition.file, use.line,
                      "'uses' names no id of a class of the register: '" + use.field + "'"});
  }
  check_conditions(use.when, definition, 0, use.line, faults);
}

}  // namespace

void check_definition(const Definition& definition, base::FileFaults& faults) {
  check_head(definition, faults);
  std::set<std::string> seen;
  for (const FieldDefinition& field : definition.fields) {
    if (!seen.insert(field.name).second) {
      faults.push_back({definition.file, field.line, "field '" + field.name + "' stands twice"});
    }
    check_field(field, definition, faults);
  }
  check_conditions(definition.confirmed_when, definition, 0, 1, faults);
  if (definition.attachments) check_attachments(*definition.attachments, definition.file, faults);
  for (const AtLeastOne& group : definition.at_least_one) {
    check_at_least_one(group, definition, faults);
  }
  for (const InOrder& order : definition.in_order) check_in_order(order, definition, faults);
  for (const Use& use : definition.uses) check_use(use, definition, faults);
}

}  // namespace benchwarden::forms
