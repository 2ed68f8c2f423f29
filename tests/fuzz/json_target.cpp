// A JSON text. What is read says what the library's own tree of the same text says, also once it
// was written again; what is refused is no JSON, or breaks a rule of ours that is named.
#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/json.h"
#include "base/text.h"
#include "fuzz/targets.h"

namespace benchwarden::fuzz {
namespace {

using base::Json;

bool is_canonical(const Json& json) {
  if (const auto* number = json.number()) {
    const auto decimal = base::parse_decimal(number->token);
    return decimal.ok() && base::format_decimal(*decimal) == number->token;
  }
  if (const auto* array = json.array()) {
    return std::all_of(array->begin(), array->end(), is_canonical);
  }
  const auto* object = json.object();
  return object == nullptr ||
         std::all_of(object->begin(), object->end(),
                     [](const base::JsonMember& member) { return is_canonical(member.second); });
}

std::string fault_of(const base::Error& error, std::string_view input) {
  if (!base::is_valid_utf8(input)) return error.detail.empty() ? "refused without a reason" : "";
  const bool by_our_rules = error.detail.find("stands twice") != std::string::npos ||
                            error.detail.find("nested deeper") != std::string::npos ||
                            error.detail.find("byte order mark") != std::string::npos;
  if (nlohmann::json::accept(input) && !by_our_rules) return "refused JSON: " + error.detail;
  return error.detail.find("byte") != std::string::npos || by_our_rules
             ? ""
             : "no place: " + error.detail;
}

/// `text` is the same value as `value` to both readers, and written anew the same text.
std::string fault_of_written(const std::string& text, const Json& value, std::string_view input,
                             std::string (*write)(const Json&)) {
  const auto again = base::parse_json(text);
  if (!again) return "its own text is refused: " + again.error().detail;
  if (write(*again) != text) return "written again it is another text";
  if (write == base::write_json && !(*again == value)) return "read again it is another value";
  const auto theirs = nlohmann::json::parse(text, nullptr, false);
  return theirs == nlohmann::json::parse(input, nullptr, false) ? "" : "it says something else";
}

}  // namespace

std::string json_fault(std::string_view input) {
  const auto json = base::parse_json(input);
  if (!json) return fault_of(json.error(), input);
  const std::string fault =
      fault_of_written(base::write_json(*json), *json, input, base::write_json);
  if (!fault.empty() || !is_canonical(*json)) return fault;
  return fault_of_written(base::write_canonical_json(*json), *json, input,
                          base::write_canonical_json);
}

}  // namespace benchwarden::fuzz
