#include "forms/read_definition.h"

#include <algorithm>
#include <cstdint>

#include "forms/attachments.h"
#include "forms/read_field.h"

namespace benchwarden::forms {
namespace {

EffectDefinition read_effect(const base::Toml& toml, const std::string& file,
                             base::FileFaults& faults) {
  base::TomlReader reader(toml, file, faults);
  EffectDefinition effect;
  effect.line = toml.line;
  effect.effect = reader.text("effect");
  effect.when = read_conditions("when", reader, faults);
  if (const base::Toml* roles = reader.table("roles")) {
    for (const auto& [role, field] : roles->members) {
      if (field.type == base::Toml::Type::kText) {
        effect.roles.emplace(role, field.text);
      } else {
        faults.push_back({file, field.line, "role '" + role + "' must name a field"});
      }
    }
  }
  effect.keeps = reader.texts("keeps");
  effect.competence = reader.text_or("competence", "");
  reader.finish();
  return effect;
}

std::optional<AttachmentsDefinition> read_attachments(const base::Toml* toml,
                                                      const std::string& file,
                                                      base::FileFaults& faults) {
  if (toml == nullptr) return std::nullopt;
  base::TomlReader reader(*toml, file, faults);
  AttachmentsDefinition attachments;
  attachments.line = toml->line;
  attachments.label = reader.text("label");
  attachments.help = reader.text("help");
  const std::int64_t max = reader.integer_or("max", kAttachmentsMax);
  attachments.max = static_cast<std::size_t>(std::max<std::int64_t>(max, 0));
  reader.finish();
  return attachments;
}

std::vector<InOrder> read_in_order(base::TomlReader& reader, base::FileFaults& faults) {
  std::vector<InOrder> orders;
  for (const base::Toml* toml : reader.tables("in_order")) {
    base::TomlReader order(*toml, reader.file(), faults);
    const auto days_max = static_cast<int>(order.integer_or("days_max", 0));
    orders.push_back({order.texts("fields"), days_max, toml->line});
    order.finish();
  }
  return orders;
}

std::vector<Use> read_uses(base::TomlReader& reader, base::FileFaults& faults) {
  std::vector<Use> uses;
  for (const base::Toml* toml : reader.tables("uses")) {
    base::TomlReader use(*toml, reader.file(), faults);
    const std::string field = use.text("field");
    uses.push_back({field, read_conditions("when", use, faults), toml->line});
    use.finish();
  }
  return uses;
}

}  // namespace

Definition read_definition(const base::Toml& toml, const std::string& file,
                           base::FileFaults& faults) {
  base::TomlReader reader(toml, file, faults);
  Definition definition;
  definition.file = file;
  definition.kind = reader.text("kind");
  definition.version = static_cast<int>(reader.integer_or("version", 0));
  definition.title = reader.text("title");
  definition.purpose = reader.text("purpose");
  definition.roles_allowed = reader.texts("roles_allowed");
  definition.cautions = reader.texts("cautions");
  definition.correctable = reader.boolean_or("correctable", true);
  definition.confirmed_when = read_conditions("confirmed_when", reader, faults);
  definition.attachments = read_attachments(reader.table("attachments"), file, faults);
  for (const base::Toml* field : reader.tables("fields")) {
    definition.fields.push_back(read_field(*field, file, faults));
  }
  definition.at_least_one = read_at_least_one(reader, faults);
  definition.in_order = read_in_order(reader, faults);
  definition.uses = read_uses(reader, faults);
  for (const base::Toml* effect : reader.tables("effects")) {
    definition.effects.push_back(read_effect(*effect, file, faults));
  }
  reader.finish();
  return definition;
}

}  // namespace benchwarden::forms
