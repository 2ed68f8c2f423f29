#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/decimal.h"
#include "base/result.h"

namespace benchwarden::base {

class Json;
/// A number as its token stood in the text, so that places and range can be checked exactly.
struct JsonNumber {
  std::string token;
  friend bool operator==(const JsonNumber&, const JsonNumber&) = default;
};
using JsonArray = std::vector<Json>;
using JsonMember = std::pair<std::string, Json>;
using JsonObject = std::vector<JsonMember>;  ///< in the order given; keys are unique

/// A JSON value. No floating point is involved in reading or writing one.
class Json {
 public:
  Json() = default;
  Json(std::nullptr_t) {}                               // NOLINT(google-explicit-constructor)
  Json(bool value) : state_(value) {}                   // NOLINT
  Json(JsonNumber value) : state_(std::move(value)) {}  // NOLINT
  Json(Decimal value) : state_(JsonNumber{format_decimal(value)}) {}        // NOLINT
  Json(std::int64_t value) : state_(JsonNumber{std::to_string(value)}) {}   // NOLINT
  Json(std::uint64_t value) : state_(JsonNumber{std::to_string(value)}) {}  // NOLINT
  Json(int value) : state_(JsonNumber{std::to_string(value)}) {}            // NOLINT
  Json(std::string value) : state_(std::move(value)) {}                     // NOLINT
  Json(std::string_view value) : state_(std::string(value)) {}              // NOLINT
  Json(const char* value) : state_(std::string(value)) {}                   // NOLINT
  Json(JsonArray value);                                                    // NOLINT
  Json(JsonObject value);                                                   // NOLINT

  [[nodiscard]] bool is_null() const { return state_.index() == 0; }
  [[nodiscard]] const bool* boolean() const { return std::get_if<bool>(&state_); }
  [[nodiscard]] const JsonNumber* number() const { return std::get_if<JsonNumber>(&state_); }
  [[nodiscard]] const std::string* string() const { return std::get_if<std::string>(&state_); }
  [[nodiscard]] const JsonArray* array() const { return std::get_if<JsonArray>(&state_); }
  [[nodiscard]] const JsonObject* object() const { return std::get_if<JsonObject>(&state_); }
  JsonArray* array() { return std::get_if<JsonArray>(&state_); }
  JsonObject* object() { return std::get_if<JsonObject>(&state_); }

  /// The member of that name, or nullptr when absent or when this is no object.
  [[nodiscard]] const Json* find(std::string_view name) const;
  /// The value of a number token without places that fits 64 bits.
  [[nodiscard]] std::optional<std::int64_t> integer() const;

  friend bool operator==(const Json&, const Json&);

 private:
  std::variant<std::nullptr_t, bool, JsonNumber, std::string, JsonArray, JsonObject> state_;
};

/// Reads one JSON text. kInvalid, with the byte position, for: bad syntax, invalid UTF-8, a byte
/// order mark, a repeated key, nesting deeper than `depth_max`.
Result<Json> parse_json(std::string_view text, int depth_max = 16);

/// Compact text, members in the order they stand.
std::string write_json(const Json& value);

/// RFC 8785 bytes: members sorted by UTF-16 code units, shortest escapes. Number tokens must
/// already be canonical (those of Decimal and of integers up to 2^53 are); asserted.
std::string write_canonical_json(const Json& value);

/// RFC 6901: "~" and "/" in one reference token escaped.
std::string pointer_token(std::string_view name);

}  // namespace benchwarden::base
