#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace benchwarden::base {

/// One fault in a data file, precise enough to mend it.
struct FileFault {
  std::string file;
  int line = 0;
  std::string reason;
};
using FileFaults = std::vector<FileFault>;
std::string format_faults(const FileFaults& faults);  ///< "file:line: reason" a line; no line 0

/// A TOML value with the line it stands on. Floats and TOML's own date types are refused at
/// reading: quantities and dates in our files are strings, so that they stay exact.
struct Toml {
  enum class Type { kText, kInteger, kBoolean, kArray, kTable };
  Type type = Type::kTable;
  int line = 0;
  std::string text;
  std::int64_t integer = 0;
  bool boolean = false;
  std::vector<Toml> items;
  std::map<std::string, Toml, std::less<>> members;
};

Result<Toml, FileFaults> parse_toml(std::string_view text, const std::string& file);

/// Reads one table, remembers what was asked for and collects every fault into `faults`:
/// wrong type, missing, and (by `finish`) members nobody asked for.
class TomlReader {
 public:
  TomlReader(const Toml& table, std::string file, FileFaults& faults);

  std::string text(std::string_view name);  ///< required; "" after a fault
  std::string text_or(std::string_view name, std::string fallback);
  std::optional<std::string> maybe_text(std::string_view name);
  std::optional<std::int64_t> maybe_integer(std::string_view name);
  std::int64_t integer_or(std::string_view name, std::int64_t fallback);
  std::optional<bool> maybe_boolean(std::string_view name);
  bool boolean_or(std::string_view name, bool fallback);
  std::vector<std::string> texts(std::string_view name);   ///< array of text, empty when absent
  std::vector<const Toml*> tables(std::string_view name);  ///< array of tables, empty when absent
  const Toml* table(std::string_view name);                ///< nullptr when absent
  void finish();                                           ///< faults for unknown members
  void fault(const std::string& reason);                   ///< at this table's own line
  [[nodiscard]] const std::string& file() const { return file_; }

 private:
  const Toml* take(std::string_view name, Toml::Type type, std::string_view type_name);
  const Toml& table_;
  std::string file_;
  FileFaults& faults_;
  std::set<std::string, std::less<>> asked_;
};

}  // namespace benchwarden::base
