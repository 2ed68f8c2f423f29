#include <nlohmann/json.hpp>
#include <set>

#include "base/json.h"
#include "base/text.h"

namespace benchwarden::base {
namespace {

/// Builds our tree from the parser's events and stops at the first thing we do not take.
class Builder : public nlohmann::json_sax<nlohmann::json> {
 public:
  explicit Builder(int depth_max) : depth_max_(static_cast<std::size_t>(depth_max)) {}

  bool null() override { return put(Json(nullptr)); }
  bool boolean(bool value) override { return put(Json(value)); }
  bool number_integer(number_integer_t value) override { return put(Json(value)); }
  bool number_unsigned(number_unsigned_t value) override { return put(Json(value)); }
  bool number_float(number_float_t, const string_t& token) override {
    return put(Json(JsonNumber{token}));
  }
  bool string(string_t& value) override { return put(Json(std::move(value))); }
  bool binary(binary_t&) override { return false; }

  bool start_object(std::size_t) override { return open(Json(JsonObject{})); }
  bool start_array(std::size_t) override { return open(Json(JsonArray{})); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }

  bool key(string_t& name) override {
    if (!keys_.back().insert(name).second) {
      fault_ = "the member '" + name + "' stands twice in one object";
      return false;
    }
    names_.back() = std::move(name);
    return true;
  }

  bool parse_error(std::size_t position, const std::string&,
                   const nlohmann::detail::exception&) override {
    fault_ = "not JSON at byte " + std::to_string(position);
    return false;
  }

  Json take() { return std::move(root_); }
  [[nodiscard]] const std::string& fault() const { return fault_; }

 private:
  bool put(Json value) {
    if (open_.empty()) {
      root_ = std::move(value);
    } else if (JsonArray* array = open_.back().array(); array != nullptr) {
      array->push_back(std::move(value));
    } else {
      open_.back().object()->emplace_back(std::move(names_.back()), std::move(value));
    }
    return true;
  }

  bool open(Json value) {
    if (open_.size() == depth_max_) {
      fault_ = "nested deeper than " + std::to_string(depth_max_) + " levels";
      return false;
    }
    open_.push_back(std::move(value));
    names_.emplace_back();
    keys_.emplace_back();
    return true;
  }

  bool close() {
    Json done = std::move(open_.back());
    open_.pop_back();
    names_.pop_back();
    keys_.pop_back();
    return put(std::move(done));
  }

  std::size_t depth_max_;
  Json root_;
  std::vector<Json> open_;
  std::vector<std::string> names_;
  std::vector<std::set<std::string>> keys_;
  std::string fault_;
};

}  // namespace

Result<Json> parse_json(std::string_view text, int depth_max) {
  // The parser skips a byte order mark; a text that needs one is not what we exchange.
  if (text.starts_with("\xEF\xBB\xBF")) {
    return Error{ErrorCode::kInvalid, "not JSON at byte 1: a byte order mark"};
  }
  Builder builder(depth_max);
  if (!nlohmann::json::sax_parse(text, &builder)) {
    return Error{ErrorCode::kInvalid, builder.fault()};
  }
  return builder.take();
}

}  // namespace benchwarden::base
