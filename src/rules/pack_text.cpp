#include "rules/pack_text.h"

#include <algorithm>

#include "base/text.h"

namespace benchwarden::rules {
namespace {

constexpr std::size_t kIdMax = 60;

bool is_id_sign(char sign) {
  return (sign >= 'a' && sign <= 'z') || (sign >= '0' && sign <= '9') || sign == '.' ||
         sign == '-' || sign == '_';
}

bool is_rule_id(std::string_view id) {
  return !id.empty() && id.size() <= kIdMax && id.front() >= 'a' && id.front() <= 'z' &&
         std::all_of(id.begin(), id.end(), is_id_sign);
}

bool has_text(const base::Toml& table, std::string_view name) {
  const auto found = table.members.find(name);
  return found != table.members.end() && found->second.type == base::Toml::Type::kText;
}

/// A name that must be given as one: a fault says what is wrong with it, hidden signs first, as
/// they would not be seen in the fault itself.
std::string read_name(base::TomlReader& reader, const base::Toml& table, const std::string& member,
                      bool (*is_name)(std::string_view), std::string_view fault) {
  std::string name = reader.text(member);
  if (is_name(name) || !has_text(table, member)) return name;
  if (base::hidden_sign(name)) {
    check_text(reader, member, name, kIdMax);
  } else {
    reader.fault(member + " '" + name + "' " + std::string(fault));
  }
  return name;
}

}  // namespace

void check_text(base::TomlReader& reader, const std::string& name, std::string_view text,
                std::size_t longest) {
  if (const auto hidden = base::hidden_sign(text)) {
    reader.fault(name + " holds the hidden sign " + base::sign_name(*hidden) +
                 ", accepted: signs that can be seen, in one line");
  } else if (base::is_blank(text)) {
    reader.fault(name + " is blank, accepted: 1 to " + std::to_string(longest) + " signs");
  } else if (base::count_code_points(text) > longest) {
    reader.fault(name + " has " + std::to_string(base::count_code_points(text)) +
                 " signs, accepted: 1 to " + std::to_string(longest));
  }
}

std::string read_words(base::TomlReader& reader, const base::Toml& table, std::string_view name,
                       std::size_t longest) {
  std::string text = reader.text(name);
  if (has_text(table, name)) check_text(reader, std::string(name), text, longest);
  return text;
}

std::string read_rule_id(base::TomlReader& reader, const base::Toml& table) {
  return read_name(reader, table, "id", is_rule_id,
                   "is no name of a rule, accepted: 1 to 60 lower-case letters, digits, dots, "
                   "hyphens and underscores, a letter first");
}

std::string read_pack_name(base::TomlReader& reader, const base::Toml& table) {
  return read_name(reader, table, "pack", base::is_slug,
                   "is no name of a pack, accepted: 1 to 40 lower-case letters, digits and "
                   "hyphens, a letter first");
}

}  // namespace benchwarden::rules
