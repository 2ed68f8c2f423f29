#include "base/json.h"
#include "base/sha256.h"
#include "entries/leaf.h"

namespace benchwarden::entries {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

struct ScalarToJson {
  Json operator()(const quantities::Quantity& quantity) const { return quantity.value; }
  Json operator()(const Id& id) const { return id.slug; }
  Json operator()(const base::CivilDate& date) const { return base::format_date(date); }
  Json operator()(const Code& code) const { return code.slug; }
  Json operator()(const Text& text) const { return text.text; }
};

struct ValueToJson : ScalarToJson {
  using ScalarToJson::operator();
  Json operator()(const List& list) const {
    JsonArray rows;
    for (const Record& record : list.rows) {
      JsonObject row;
      for (const auto& [name, scalar] : record) {
        row.emplace_back(name, std::visit(ScalarToJson{}, scalar));
      }
      rows.emplace_back(std::move(row));
    }
    return rows;
  }
};

template <class T>
Json or_null(const std::optional<T>& value) {
  return value ? Json(*value) : Json(nullptr);
}

Json as_read_json(const std::vector<AsRead>& readings) {
  JsonObject members;
  for (const AsRead& reading : readings) {
    members.emplace_back(reading.field,
                         JsonObject{{"unit", reading.unit}, {"value", reading.value}});
  }
  return members;
}

}  // namespace

base::Json fields_json(const Fields& fields) {
  JsonObject members;
  for (const Field& field : fields) {
    members.emplace_back(field.name, std::visit(ValueToJson{}, field.value));
  }
  return members;
}

namespace {

JsonObject content_members(const Content& content) {
  JsonArray attachments(content.attachments.begin(), content.attachments.end());
  return JsonObject{
      {"id", base::format_uuid(content.id)},
      {"kind", content.kind},
      {"form_version", content.form_version},
      {"occurred_at", base::format_rfc3339(content.occurred_at)},
      {"device_seq", or_null(content.device_seq)},
      {"corrects", content.corrects ? Json(base::format_uuid(*content.corrects)) : Json(nullptr)},
      {"reason", or_null(content.reason)},
      {"fields", fields_json(content.fields)},
      {"as_read", as_read_json(content.as_read)},
      {"attachments", std::move(attachments)},
  };
}

}  // namespace

bool operator==(const Content& a, const Content& b) {
  return base::write_canonical_json(content_members(a)) ==
         base::write_canonical_json(content_members(b));
}

base::Json entry_json(const Entry& entry) {
  JsonObject members = {{"format", kLeafFormat}, {"seq", entry.seq}};
  for (base::JsonMember& member : content_members(entry.content)) {
    members.push_back(std::move(member));
  }
  const Signature& signature = entry.signature;
  members.emplace_back("recorded_at", base::format_rfc3339_utc(entry.recorded_at));
  members.emplace_back("person", signature.person);
  members.emplace_back("person_verified", signature.person_verified);
  members.emplace_back("device", or_null(signature.device));
  members.emplace_back("clock_offset_ms", or_null(signature.clock_offset_ms));
  return members;
}

std::string write_leaf(const Entry& entry) { return base::write_canonical_json(entry_json(entry)); }

}  // namespace benchwarden::entries
