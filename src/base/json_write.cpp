#include <algorithm>
#include <cassert>
#include <charconv>

#include "base/json.h"
#include "base/json_text.h"

namespace benchwarden::base {
namespace {

[[maybe_unused]] bool is_canonical_number(const std::string& token) {
  const auto decimal = parse_decimal(token);
  return decimal.ok() && format_decimal(*decimal) == token;
}

class Writer {
 public:
  enum class Order { kAsGiven, kCanonical };
  explicit Writer(Order order) : order_(order) {}

  void write(const Json& value) {
    if (value.is_null()) {
      out_ += "null";
    } else if (const bool* boolean = value.boolean(); boolean != nullptr) {
      out_ += *boolean ? "true" : "false";
    } else if (const JsonNumber* number = value.number(); number != nullptr) {
      assert(order_ == Order::kAsGiven || is_canonical_number(number->token));
      out_ += number->token;
    } else if (const std::string* string = value.string(); string != nullptr) {
      append_json_string(*string, out_);
    } else if (const JsonArray* array = value.array(); array != nullptr) {
      write_array(*array);
    } else {
      write_object(*value.object());
    }
  }
  std::string take() { return std::move(out_); }

 private:
  void write_array(const JsonArray& array) {
    out_ += '[';
    for (const Json& item : array) {
      if (&item != &array.front()) out_ += ',';
      write(item);
    }
    out_ += ']';
  }

  void write_object(const JsonObject& object) {
    std::vector<const JsonMember*> members;
    members.reserve(object.size());
    for (const JsonMember& member : object) members.push_back(&member);
    if (order_ == Order::kCanonical) {
      std::sort(members.begin(), members.end(), [](const JsonMember* a, const JsonMember* b) {
        return utf16_less(a->first, b->first);
      });
    }
    out_ += '{';
    for (const JsonMember* member : members) {
      if (member != members.front()) out_ += ',';
      append_json_string(member->first, out_);
      out_ += ':';
      write(member->second);
    }
    out_ += '}';
  }

  Order order_;
  std::string out_;
};

}  // namespace

Json::Json(JsonArray value) : state_(std::move(value)) {}
Json::Json(JsonObject value) : state_(std::move(value)) {}

const Json* Json::find(std::string_view name) const {
  const JsonObject* members = object();
  if (members == nullptr) return nullptr;
  for (const auto& [key, value] : *members) {
    if (key == name) return &value;
  }
  return nullptr;
}

std::optional<std::int64_t> Json::integer() const {
  const JsonNumber* token = number();
  if (token == nullptr) return std::nullopt;
  std::int64_t value = 0;
  const char* end = token->token.data() + token->token.size();
  const auto [stop, error] = std::from_chars(token->token.data(), end, value);
  if (error != std::errc{} || stop != end) return std::nullopt;
  return value;
}

bool operator==(const Json& a, const Json& b) { return a.state_ == b.state_; }

std::string write_json(const Json& value) {
  Writer writer(Writer::Order::kAsGiven);
  writer.write(value);
  return writer.take();
}

std::string write_canonical_json(const Json& value) {
  Writer writer(Writer::Order::kCanonical);
  writer.write(value);
  return writer.take();
}

std::string pointer_token(std::string_view name) {
  std::string token;
  for (const char c : name) {
    if (c == '~') {
      token += "~0";
    } else if (c == '/') {
      token += "~1";
    } else {
      token += c;
    }
  }
  return token;
}

}  // namespace benchwarden::base
