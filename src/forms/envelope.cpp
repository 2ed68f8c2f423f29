#include "forms/envelope.h"

#include <algorithm>

#include "base/sha256.h"
#include "base/text.h"
#include "forms/attachments.h"
#include "forms/shown.h"

namespace benchwarden::forms {
namespace {

using base::Json;
using entries::RefusalCode;

constexpr std::int64_t kIntegerMax = (std::int64_t{1} << 53) - 1;  // exact for every JSON reader
constexpr std::size_t kReasonLengthMax = 500;
constexpr std::size_t kConfirmedMax = 200;
constexpr std::int64_t kYear2000Ms = 946'684'800'000;
constexpr std::string_view kUuidShape = "UUID (RFC 9562)";
constexpr std::string_view kTimeShape = "YYYY-MM-DDThh:mm:ss±hh:mm (RFC 3339)";

class EnvelopeReader {
 public:
  EnvelopeReader(const Catalog& catalog, const base::JsonObject& members,
                 const Surroundings& surroundings, entries::Refusals& refusals)
      : catalog_(catalog), members_(members), surroundings_(surroundings), refusals_(refusals) {}

  Envelope run() {
    envelope_.id = uuid("id", required("id", kUuidShape));
    read_kind();
    read_occurred_at();
    read_device_seq();
    envelope_.clock_offset_ms = integer("clock_offset_ms", -kIntegerMax);
    read_corrects();
    read_reason();
    read_attachments();
    read_confirmed();
    read_fields();
    refuse_unknown();
    return std::move(envelope_);
  }

 private:
  /// Absent and null are the same for an optional member.
  const Json* optional(std::string_view name) {
    for (const auto& [key, value] : members_) {
      if (key == name) return value.is_null() ? nullptr : &value;
    }
    return nullptr;
  }

  const Json* required(std::string_view name, std::string_view accepted) {
    const Json* json = optional(name);
    if (json == nullptr) refuse(name, RefusalCode::kMissing, "", std::string(accepted));
    return json;
  }

  const std::string* string(std::string_view name, const Json* json) {
    if (json == nullptr) return nullptr;
    if (json->string() == nullptr) {
      refuse(name, RefusalCode::kWrongType, shown_value(*json), "\"…\"");
    }
    return json->string();
  }

  std::optional<base::Uuid> uuid(std::string_view name, const Json* json) {
    const std::string* text = string(name, json);
    if (text == nullptr) return std::nullopt;
    const auto id = base::parse_uuid(*text);
    if (id) return *id;
    refuse(name, RefusalCode::kBadId, shown_value(*json), std::string(kUuidShape));
    return std::nullopt;
  }

  void read_kind() {
    std::vector<std::string> kinds;
    for (const Definition& definition : catalog_.definitions()) kinds.push_back(definition.kind);
    const std::string accepted = base::join(kinds, ", ");
    const std::string* kind = string("kind", required("kind", accepted));
    if (kind == nullptr) return;
    envelope_.definition = catalog_.find(*kind);
    if (envelope_.definition == nullptr) {
      refuse("kind", RefusalCode::kUnknownKind, shown_value(Json(*kind)), accepted);
      return;
    }
    const auto& roles = envelope_.definition->roles_allowed;
    if (std::find(roles.begin(), roles.end(), surroundings_.person_role()) == roles.end()) {
      refuse("kind", RefusalCode::kNotAllowed, *kind, base::join(roles, ", "));
    }
  }

  void read_occurred_at() {
    const std::string* text = string("occurred_at", required("occurred_at", kTimeShape));
    if (text == nullptr) return;
    const auto time = base::parse_rfc3339(*text);
    const std::string shown = shown_value(Json(*text));
    const base::Instant latest{surroundings_.now().ms + kClockToleranceMs};
    if (!time) {
      refuse("occurred_at", RefusalCode::kBadTime, shown, std::string(kTimeShape));
    } else if (time->instant.ms < kYear2000Ms) {
      refuse("occurred_at", RefusalCode::kBadTime, shown, "≥ 2000-01-01T00:00:00Z");
    } else if (time->instant > latest) {
      refuse("occurred_at", RefusalCode::kInFuture, shown, "≤ " + base::format_rfc3339_utc(latest));
    } else {
      envelope_.occurred_at = *time;
    }
  }

  std::optional<std::int64_t> integer(std::string_view name, std::int64_t lowest) {
    const Json* json = optional(name);
    if (json == nullptr) return std::nullopt;
    const std::string accepted = std::to_string(lowest) + " … " + std::to_string(kIntegerMax);
    if (json->number() == nullptr) {
      refuse(name, no_number(*json), shown_value(*json), accepted);
      return std::nullopt;
    }
    const auto value = json->integer();
    if (value && *value >= lowest && *value <= kIntegerMax) return value;
    refuse(name, RefusalCode::kImpossible, shown_value(*json), accepted);
    return std::nullopt;
  }

  void read_device_seq() {
    const auto value = integer("device_seq", 0);
    if (value) envelope_.device_seq = static_cast<std::uint64_t>(*value);
  }

  [[nodiscard]] bool is_correction() const {
    return envelope_.definition != nullptr && envelope_.definition->kind == kCorrectionKind;
  }

  /// corrects and reason belong to corrections; refuses them elsewhere.
  const Json* of_corrections(std::string_view name) {
    const Json* json = optional(name);
    const bool elsewhere = envelope_.definition != nullptr && !is_correction();
    if (json == nullptr || !elsewhere) return json;
    refuse(name, RefusalCode::kFieldNotApplicable, shown_value(*json),
           "kind = " + std::string(kCorrectionKind));
    return nullptr;
  }

  void read_corrects() {
    const Json* json = of_corrections("corrects");
    envelope_.corrects = uuid("corrects", json);
    if (json == nullptr && is_correction()) {
      refuse("corrects", RefusalCode::kMissing, "", std::string(kUuidShape));
    }
  }

  void read_reason() {
    const Json* json = of_corrections("reason");
    const std::string accepted = shown_length(kReasonLengthMax);
    if (json == nullptr) {
      if (is_correction()) refuse("reason", RefusalCode::kReasonNeeded, "", accepted);
      return;
    }
    const std::string* text = string("reason", json);
    if (text == nullptr) return;
    if (base::is_blank(*text)) {
      refuse("reason", RefusalCode::kReasonNeeded, shown_value(*json), accepted);
    } else if (const auto hidden = base::hidden_sign(*text)) {
      refuse("reason", RefusalCode::kHiddenSign, base::sign_name(*hidden), accepted);
    } else if (base::count_code_points(*text) > kReasonLengthMax) {
      refuse("reason", RefusalCode::kTextTooLong, shown_value(*json), accepted);
    } else {
      envelope_.reason = *text;
    }
  }

  /// The texts of an optional array; `form` says whether one is as it must be.
  template <class Form>
  std::vector<std::string> texts(std::string_view name, std::size_t max, std::string_view shape,
                                 Form form) {
    std::vector<std::string> values;
    const Json* json = optional(name);
    if (json == nullptr) return values;
    const base::JsonArray* items = json->array();
    if (items == nullptr) {
      refuse(name, RefusalCode::kWrongType, shown_value(*json), "[…]");
      return values;
    }
    if (items->size() > max) {
      refuse(name, RefusalCode::kTooManyRows, std::to_string(items->size()),
             "0 … " + std::to_string(max));
      return values;
    }
    for (std::size_t i = 0; i < items->size(); ++i) {
      const Json& item = (*items)[i];
      const std::string at = std::string(name) + "/" + std::to_string(i);
      if (item.string() == nullptr) {
        refuse(at, RefusalCode::kWrongType, shown_value(item), std::string(shape));
      } else if (!form(*item.string())) {
        refuse(at, RefusalCode::kBadText, shown_value(item), std::string(shape));
      } else {
        values.push_back(*item.string());
      }
    }
    return values;
  }

  void read_attachments() {
    const Definition* form = envelope_.definition;
    const std::size_t refused_before = refusals_.size();
    const std::size_t max =
        form != nullptr && form->attachments ? form->attachments->max : kAttachmentsMax;
    envelope_.attachments =
        texts("attachments", max, text_format_shape(TextFormat::kSha256),
              [](const std::string& text) { return has_format(text, TextFormat::kSha256); });
    // Those of a correction are judged by the form of its target.
    if (form == nullptr || is_correction() || refusals_.size() > refused_before) return;
    check_attachments(envelope_.attachments, catalog_, *form, surroundings_, refusals_);
  }

  void read_confirmed() {
    envelope_.confirmed = texts("confirmed", kConfirmedMax, "\"…\"",
                                [](const std::string& text) { return !text.empty(); });
  }

  void read_fields() {
    const Json* json = required("fields", "{…}");
    if (json == nullptr) return;
    envelope_.fields = json->object();
    if (envelope_.fields == nullptr) {
      refuse("fields", RefusalCode::kWrongType, shown_value(*json), "{…}");
    }
  }

  void refuse_unknown() {
    for (const auto& [name, value] : members_) {
      const auto& members = kEnvelopeMembers;
      if (std::find(members.begin(), members.end(), name) != members.end()) continue;
      std::vector<std::string> known(members.begin(), members.end());
      refuse(base::pointer_token(name), RefusalCode::kUnknownMember, shown_value(value),
             base::join(known, ", "));
    }
  }

  void refuse(std::string_view path, RefusalCode code, std::string value, std::string accepted) {
    refusals_.push_back({"/" + std::string(path), code, std::move(value), std::move(accepted)});
  }

  const Catalog& catalog_;
  const base::JsonObject& members_;
  const Surroundings& surroundings_;
  entries::Refusals& refusals_;
  Envelope envelope_;
};

}  // namespace

Envelope read_envelope(const Catalog& catalog, const base::JsonObject& submission,
                       const Surroundings& surroundings, entries::Refusals& refusals) {
  return EnvelopeReader(catalog, submission, surroundings, refusals).run();
}

}  // namespace benchwarden::forms
