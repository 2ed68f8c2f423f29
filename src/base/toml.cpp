#include "base/toml.h"

#include <algorithm>
#include <exception>
#include <optional>
#include <sstream>
#include <vector>

namespace benchwarden::base {
namespace {

/// The library asserts of some texts ("[=") what it would refuse a few lines on. That is a fault
/// of the file and must not end the process.
struct AssertionOfLibrary : std::exception {};
[[noreturn]] void give_up() { throw AssertionOfLibrary{}; }

}  // namespace
}  // namespace benchwarden::base

#define TOML_HEADER_ONLY 1
#define TOML_EXCEPTIONS 0
#define TOML_ASSERT(expr) \
  (static_cast<bool>(expr) ? static_cast<void>(0) : benchwarden::base::give_up())
#include <toml++/toml.h>

namespace benchwarden::base {
namespace {

class Converter {
 public:
  Converter(std::string file, FileFaults& faults) : file_(std::move(file)), faults_(faults) {}

  Toml convert(const toml::node& node) {
    Toml value;
    value.line = static_cast<int>(node.source().begin.line);
    if (const auto* text = node.as_string()) {
      value.type = Toml::Type::kText;
      value.text = text->get();
    } else if (const auto* integer = node.as_integer()) {
      value.type = Toml::Type::kInteger;
      value.integer = integer->get();
    } else if (const auto* boolean = node.as_boolean()) {
      value.type = Toml::Type::kBoolean;
      value.boolean = boolean->get();
    } else if (const auto* array = node.as_array()) {
      value.type = Toml::Type::kArray;
      for (const toml::node& item : *array) value.items.push_back(convert(item));
    } else if (const auto* table = node.as_table()) {
      value.type = Toml::Type::kTable;
      for (const auto& [key, member] : *table) {
        value.members.emplace(std::string(key.str()), convert(member));
      }
    } else {
      faults_.push_back(
          {file_, value.line, "floats and TOML dates are not used here: write the value as text"});
    }
    return value;
  }

 private:
  std::string file_;
  FileFaults& faults_;
};

std::optional<toml::parse_result> try_parse(std::string_view text) {
  try {
    return toml::parse(text);
  } catch (const AssertionOfLibrary&) {
    return std::nullopt;
  }
}

/// The line at which the library stumbles: the last one of the shortest beginning that makes it.
int stumbling_line(std::string_view text) {
  std::vector<std::size_t> ends;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\n') ends.push_back(i + 1);
  }
  const auto first = std::partition_point(ends.begin(), ends.end(), [&](std::size_t end) {
    return try_parse(text.substr(0, end)).has_value();
  });
  return static_cast<int>(first - ends.begin()) + 1;
}

}  // namespace

std::string format_faults(const FileFaults& faults) {
  std::string text;
  for (const FileFault& fault : faults) {
    const std::string line = fault.line > 0 ? ":" + std::to_string(fault.line) : "";
    text += fault.file + line + ": " + fault.reason + "\n";
  }
  return text;
}

Result<Toml, FileFaults> parse_toml(std::string_view text, const std::string& file) {
  const auto tried = try_parse(text);
  if (!tried)
    return FileFaults{{file, stumbling_line(text), "this line is not written as TOML is"}};
  const toml::parse_result& parsed = *tried;
  if (!parsed) {
    const toml::parse_error& error = parsed.error();
    return FileFaults{
        {file, static_cast<int>(error.source().begin.line), std::string(error.description())}};
  }
  FileFaults faults;
  Toml value = Converter(file, faults).convert(parsed.table());
  if (!faults.empty()) return faults;
  return value;
}

TomlReader::TomlReader(const Toml& table, std::string file, FileFaults& faults)
    : table_(table), file_(std::move(file)), faults_(faults) {}

const Toml* TomlReader::take(std::string_view name, Toml::Type type, std::string_view type_name) {
  asked_.emplace(name);
  const auto found = table_.members.find(name);
  if (found == table_.members.end()) return nullptr;
  if (found->second.type == type) return &found->second;
  faults_.push_back(
      {file_, found->second.line, "'" + std::string(name) + "' must be " + std::string(type_name)});
  return nullptr;
}

std::string TomlReader::text(std::string_view name) {
  const std::size_t faults_before = faults_.size();
  if (auto value = maybe_text(name)) return *value;
  if (faults_.size() == faults_before) fault("'" + std::string(name) + "' is missing");
  return "";
}

std::string TomlReader::text_or(std::string_view name, std::string fallback) {
  return maybe_text(name).value_or(std::move(fallback));
}

std::optional<std::string> TomlReader::maybe_text(std::string_view name) {
  const Toml* value = take(name, Toml::Type::kText, "text");
  return value == nullptr ? std::nullopt : std::optional(value->text);
}

std::int64_t TomlReader::integer_or(std::string_view name, std::int64_t fallback) {
  const Toml* value = take(name, Toml::Type::kInteger, "a whole number");
  return value == nullptr ? fallback : value->integer;
}

bool TomlReader::boolean_or(std::string_view name, bool fallback) {
  const Toml* value = take(name, Toml::Type::kBoolean, "true or false");
  return value == nullptr ? fallback : value->boolean;
}

std::vector<std::string> TomlReader::texts(std::string_view name) {
  std::vector<std::string> values;
  const Toml* array = take(name, Toml::Type::kArray, "a list of texts");
  if (array == nullptr) return values;
  for (const Toml& item : array->items) {
    if (item.type == Toml::Type::kText) {
      values.push_back(item.text);
    } else {
      faults_.push_back({file_, item.line, "'" + std::string(name) + "' must hold texts only"});
    }
  }
  return values;
}

std::vector<const Toml*> TomlReader::tables(std::string_view name) {
  std::vector<const Toml*> values;
  const Toml* array = take(name, Toml::Type::kArray, "a list of tables");
  if (array == nullptr) return values;
  for (const Toml& item : array->items) {
    if (item.type == Toml::Type::kTable) {
      values.push_back(&item);
    } else {
      faults_.push_back({file_, item.line, "'" + std::string(name) + "' must hold tables only"});
    }
  }
  return values;
}

const Toml* TomlReader::table(std::string_view name) {
  return take(name, Toml::Type::kTable, "a table");
}

void TomlReader::finish() {
  for (const auto& [name, value] : table_.members) {
    if (!asked_.contains(name)) {
      faults_.push_back({file_, value.line, "'" + name + "' is not known here"});
    }
  }
}

void TomlReader::fault(const std::string& reason) {
  faults_.push_back({file_, table_.line, reason});
}

}  // namespace benchwarden::base
