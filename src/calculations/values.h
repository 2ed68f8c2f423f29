#pragma once

#include <cassert>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/civil_date.h"

namespace benchwarden::calculations {

/// What goes into and comes out of a calculation that is called by name: a number in the unit its
/// name says, a code, a day, or a list of numbers.
using Value = std::variant<double, std::string, base::CivilDate, std::vector<double>>;
enum class ValueType { kNumber, kCode, kDate, kList };  ///< in the order of the alternatives

struct NamedValue {
  std::string name;
  Value value;
};
/// Results and what was found on the way, in the order in which they follow from each other.
using Values = std::vector<NamedValue>;

/// Inputs that have been checked against the calculation's rules: what is required is there, and
/// everything has its type. Asking for something else is our own bug.
class Inputs {
 public:
  explicit Inputs(std::map<std::string, Value, std::less<>> values) : values_(std::move(values)) {}

  [[nodiscard]] bool has(std::string_view name) const { return values_.contains(name); }
  [[nodiscard]] double number(std::string_view name) const { return get<double>(name); }
  [[nodiscard]] const std::string& code(std::string_view name) const {
    return get<std::string>(name);
  }
  [[nodiscard]] base::CivilDate date(std::string_view name) const {
    return get<base::CivilDate>(name);
  }
  [[nodiscard]] const std::vector<double>& list(std::string_view name) const {
    return get<std::vector<double>>(name);
  }
  [[nodiscard]] std::optional<double> maybe_number(std::string_view name) const {
    return has(name) ? std::optional(number(name)) : std::nullopt;
  }
  [[nodiscard]] std::optional<base::CivilDate> maybe_date(std::string_view name) const {
    return has(name) ? std::optional(date(name)) : std::nullopt;
  }
  [[nodiscard]] auto begin() const { return values_.begin(); }
  [[nodiscard]] auto end() const { return values_.end(); }

 private:
  template <class T>
  [[nodiscard]] const T& get(std::string_view name) const {
    const auto found = values_.find(name);
    assert(found != values_.end() && std::holds_alternative<T>(found->second));
    return *std::get_if<T>(&found->second);
  }

  std::map<std::string, Value, std::less<>> values_;
};

}  // namespace benchwarden::calculations
