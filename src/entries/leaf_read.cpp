#include "base/json.h"
#include "entries/leaf.h"

namespace benchwarden::entries {
namespace {

using base::Json;

/// Reads one leaf. Every accessor marks the reader as failed on the first thing that is not as
/// written by us; the caller asks once at the end.
class LeafReader {
 public:
  LeafReader(const Json& leaf, const Vocabulary& vocabulary)
      : leaf_(leaf), vocabulary_(vocabulary) {}

  Entry read() {
    Entry entry;
    if (integer("format") != kLeafFormat) fail("format");
    entry.seq = static_cast<std::uint64_t>(integer("seq"));
    entry.content = content();
    entry.signature = signature();
    entry.recorded_at = time("recorded_at").instant;
    return entry;
  }
  [[nodiscard]] const std::string& fault() const { return fault_; }

 private:
  Content content() {
    Content content;
    content.id = id("id");
    content.kind = text("kind");
    content.form_version = static_cast<int>(integer("form_version"));
    content.occurred_at = time("occurred_at");
    if (!is_null("device_seq")) {
      content.device_seq = static_cast<std::uint64_t>(integer("device_seq"));
    }
    if (!is_null("corrects")) content.corrects = id("corrects");
    if (!is_null("reason")) content.reason = text("reason");
    content.fields = fields();
    content.as_read = as_read();
    content.attachments = attachments();
    return content;
  }

  Signature signature() {
    Signature signature;
    signature.person = text("person");
    const bool* verified = member("person_verified").boolean();
    if (verified == nullptr) fail("person_verified");
    signature.person_verified = verified != nullptr && *verified;
    if (!is_null("device")) signature.device = text("device");
    if (!is_null("clock_offset_ms")) signature.clock_offset_ms = integer("clock_offset_ms");
    return signature;
  }

  Fields fields() {
    Fields fields;
    const base::JsonObject* members = member("fields").object();
    if (members == nullptr) fail("fields");
    if (members == nullptr) return fields;
    for (const auto& [name, value] : *members) fields.push_back({name, field_value(name, value)});
    return fields;
  }

  FieldValue field_value(const std::string& name, const Json& value) {
    const auto meaning = vocabulary_.meaning(name);
    if (meaning && meaning->type == FieldType::kList) return list(name, value);
    return std::visit([](auto&& scalar) { return FieldValue(std::move(scalar)); },
                      scalar_value(name, value));
  }

  List list(const std::string& name, const Json& value) {
    List list;
    const base::JsonArray* rows = value.array();
    if (rows == nullptr) fail(name);
    if (rows == nullptr) return list;
    for (const Json& row : *rows) {
      Record record;
      const base::JsonObject* members = row.object();
      if (members == nullptr) fail(name);
      if (members == nullptr) continue;
      for (const auto& [column, cell] : *members) {
        record.emplace_back(column, scalar_value(column, cell));
      }
      list.rows.push_back(std::move(record));
    }
    return list;
  }

  Scalar scalar_value(const std::string& name, const Json& value) {
    const auto meaning = vocabulary_.meaning(name);
    if (meaning && meaning->type == FieldType::kQuantity && value.number() != nullptr) {
      const auto decimal = base::parse_decimal(value.number()->token);
      if (decimal) return quantities::Quantity{*decimal, meaning->unit};
    }
    if (meaning && value.string() != nullptr) {
      const std::string& string = *value.string();
      if (meaning->type == FieldType::kId) return Id{string};
      if (meaning->type == FieldType::kCode) return Code{string};
      if (meaning->type == FieldType::kText) return Text{string};
      const auto date = base::parse_date(string);
      if (meaning->type == FieldType::kDate && date) return *date;
    }
    fail(name);
    return Text{};
  }

  std::vector<AsRead> as_read() {
    std::vector<AsRead> readings;
    const base::JsonObject* members = member("as_read").object();
    if (members == nullptr) fail("as_read");
    if (members == nullptr) return readings;
    for (const auto& [field, reading] : *members) {
      const Json* unit = reading.find("unit");
      const Json* value = reading.find("value");
      const bool shape = unit != nullptr && unit->string() != nullptr && value != nullptr &&
                         value->number() != nullptr;
      if (!shape) fail("as_read");
      if (!shape) continue;
      const auto decimal = base::parse_decimal(value->number()->token);
      if (!decimal) fail("as_read");
      if (decimal) readings.push_back({field, *decimal, *unit->string()});
    }
    return readings;
  }

  std::vector<std::string> attachments() {
    std::vector<std::string> digests;
    const base::JsonArray* items = member("attachments").array();
    if (items == nullptr) fail("attachments");
    if (items == nullptr) return digests;
    for (const Json& item : *items) {
      if (item.string() == nullptr) fail("attachments");
      if (item.string() != nullptr) digests.push_back(*item.string());
    }
    return digests;
  }

  const Json& member(std::string_view name) {
    static const Json kNothing;
    const Json* found = leaf_.find(name);
    if (found == nullptr) fail(name);
    return found == nullptr ? kNothing : *found;
  }
  bool is_null(std::string_view name) { return member(name).is_null(); }

  std::string text(std::string_view name) {
    const std::string* string = member(name).string();
    if (string == nullptr) fail(name);
    return string == nullptr ? "" : *string;
  }
  std::int64_t integer(std::string_view name) {
    const auto value = member(name).integer();
    if (!value) fail(name);
    return value.value_or(0);
  }
  base::Uuid id(std::string_view name) {
    const auto value = base::parse_uuid(text(name));
    if (!value) fail(name);
    return value ? *value : base::Uuid{};
  }
  base::Timestamp time(std::string_view name) {
    const auto value = base::parse_rfc3339(text(name));
    if (!value) fail(name);
    return value ? *value : base::Timestamp{};
  }

  void fail(std::string_view member) {
    if (fault_.empty()) fault_ = "the member '" + std::string(member) + "' cannot be read";
  }

  const Json& leaf_;
  const Vocabulary& vocabulary_;
  std::string fault_;
};

}  // namespace

base::Result<Entry> read_leaf(std::string_view leaf, const Vocabulary& vocabulary) {
  const auto json = base::parse_json(leaf);
  if (!json) return base::Error{base::ErrorCode::kDamaged, json.error().detail};
  LeafReader reader(*json, vocabulary);
  Entry entry = reader.read();
  if (!reader.fault().empty()) return base::Error{base::ErrorCode::kDamaged, reader.fault()};
  if (write_leaf(entry) != leaf) {
    return base::Error{base::ErrorCode::kDamaged, "the bytes are not in canonical form"};
  }
  return entry;
}

}  // namespace benchwarden::entries
