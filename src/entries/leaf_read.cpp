#include <charconv>

#include "base/json_text.h"
#include "base/text.h"
#include "entries/leaf.h"

namespace benchwarden::entries {
namespace {

/// Reads one leaf, whose members stand in one order only. The first thing that is not as written
/// by us ends the reading: nothing is left to read then, and the caller asks once at the end.
class LeafReader {
 public:
  LeafReader(std::string_view leaf, const Vocabulary& vocabulary)
      : input_(leaf), vocabulary_(vocabulary) {}

  Entry read() {
    Entry entry;
    Content& content = entry.content;
    Signature& signature = entry.signature;
    content.as_read = at("as_read").as_read();
    content.attachments = at("attachments").attachments();
    if (!at("clock_offset_ms").is_null()) signature.clock_offset_ms = integer<std::int64_t>();
    if (!at("corrects").is_null()) content.corrects = id();
    if (!at("device").is_null()) signature.device = text();
    if (!at("device_seq").is_null()) content.device_seq = integer<std::uint64_t>();
    content.fields = at("fields").fields();
    content.form_version = at("form_version").integer<int>();
    if (at("format").integer<int>() != kLeafFormat) fail("format");
    content.id = at("id").id();
    content.kind = at("kind").text();
    content.occurred_at = at("occurred_at").time();
    signature.person = at("person").text();
    signature.person_verified = at("person_verified").boolean();
    if (!at("reason").is_null()) content.reason = text();
    entry.recorded_at = at("recorded_at").time().instant;
    entry.seq = at("seq").integer<std::uint64_t>();
    if (!input_.take("}") || !input_.at_end()) fail("seq");
    return entry;
  }
  [[nodiscard]] const std::string& fault() const { return fault_; }

 private:
  /// Passes to the value of a member of the leaf.
  LeafReader& at(std::string_view member) {
    const bool first = member_.empty();
    member_ = member;
    if (!input_.take(first ? "{\"" : ",\"") || !input_.take(member) || !input_.take("\":")) {
      fail(member);
    }
    return *this;
  }
  bool is_null() { return input_.take("null"); }

  /// Calls `each` with the name of every member; it reads the value.
  template <class Each>
  void each_member(Each each) {
    if (!input_.take("{")) return fail(member_);
    if (input_.take("}")) return;
    std::optional<std::string> before;
    do {
      auto name = input_.string();
      // In ascending order no name stands twice.
      const bool in_order = name && (!before || base::utf16_less(*before, *name));
      if (!in_order || !input_.take(":")) return fail(member_);
      each(*name);
      before = std::move(name);
    } while (input_.take(","));
    if (!input_.take("}")) fail(member_);
  }
  template <class Each>
  void each_item(Each each) {
    if (!input_.take("[")) return fail(member_);
    if (input_.take("]")) return;
    do {
      each();
    } while (input_.take(","));
    if (!input_.take("]")) fail(member_);
  }

  Fields fields() {
    Fields fields;
    each_member([&](const std::string& name) { fields.push_back({name, field_value(name)}); });
    return fields;
  }
  FieldValue field_value(const std::string& name) {
    const auto meaning = vocabulary_.meaning(name);
    if (meaning && meaning->type == FieldType::kList) return list();
    return std::visit(
        [](auto&& scalar) { return FieldValue(std::forward<decltype(scalar)>(scalar)); },
        scalar(name, meaning));
  }
  List list() {
    List list;
    each_item([&] {
      Record& row = list.rows.emplace_back();
      each_member([&](const std::string& column) {
        row.emplace_back(column, scalar(column, vocabulary_.meaning(column)));
      });
    });
    return list;
  }
  Scalar scalar(const std::string& name, const std::optional<FieldMeaning>& meaning) {
    if (meaning && meaning->type == FieldType::kQuantity) {
      const auto decimal = base::parse_decimal(input_.number());
      if (decimal) return quantities::Quantity{*decimal, meaning->unit};
    } else if (auto string = input_.string(); meaning && string) {
      if (meaning->type == FieldType::kId) return Id{*std::move(string)};
      if (meaning->type == FieldType::kCode) return Code{*std::move(string)};
      if (meaning->type == FieldType::kText) return Text{*std::move(string)};
      const auto date = base::parse_date(*string);
      if (meaning->type == FieldType::kDate && date) return *date;
    }
    fail(name);
    return Text{};
  }

  std::vector<AsRead> as_read() {
    std::vector<AsRead> readings;
    each_member([&](const std::string& field) {
      AsRead reading{field, {}, {}};
      const bool has_unit = input_.take("{\"unit\":");
      reading.unit = text();
      const bool has_value = input_.take(",\"value\":");
      const auto decimal = base::parse_decimal(input_.number());
      if (!has_unit || !has_value || !decimal || !input_.take("}")) return fail(member_);
      reading.value = *decimal;
      readings.push_back(std::move(reading));
    });
    return readings;
  }
  std::vector<std::string> attachments() {
    std::vector<std::string> digests;
    each_item([&] { digests.push_back(text()); });
    return digests;
  }

  std::string text() {
    auto string = input_.string();
    if (!string) fail(member_);
    return string ? *std::move(string) : "";
  }
  template <class Integer>
  Integer integer() {
    Integer value = 0;
    const std::string_view token = input_.number();
    const auto [stop, error] = std::from_chars(token.data(), token.data() + token.size(), value);
    if (error != std::errc{} || stop != token.data() + token.size()) fail(member_);
    return value;
  }
  bool boolean() {
    const bool value = input_.take("true");
    if (!value && !input_.take("false")) fail(member_);
    return value;
  }
  base::Uuid id() {
    const auto value = base::parse_uuid(text());
    if (!value) fail(member_);
    return value ? *value : base::Uuid{};
  }
  base::Timestamp time() {
    const auto value = base::parse_rfc3339(text());
    if (!value) fail(member_);
    return value ? *value : base::Timestamp{};
  }

  void fail(std::string_view member) {
    if (!fault_.empty()) return;
    fault_ = "the member '" + std::string(member) + "' cannot be read";
    input_ = base::JsonInput("");
  }

  base::JsonInput input_;
  const Vocabulary& vocabulary_;
  std::string_view member_;  ///< of the leaf, whose value is read
  std::string fault_;
};

}  // namespace

base::Result<Entry> read_leaf(std::string_view leaf, const Vocabulary& vocabulary) {
  if (!base::is_valid_utf8(leaf)) {
    return base::Error{base::ErrorCode::kDamaged, "the bytes are not UTF-8"};
  }
  LeafReader reader(leaf, vocabulary);
  Entry entry = reader.read();
  if (!reader.fault().empty()) return base::Error{base::ErrorCode::kDamaged, reader.fault()};
  if (write_leaf(entry) != leaf) {
    return base::Error{base::ErrorCode::kDamaged, "the bytes are not in canonical form"};
  }
  return entry;
}

}  // namespace benchwarden::entries
