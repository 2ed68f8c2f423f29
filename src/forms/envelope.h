#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// All there are; those read here in the order in which they are read.
inline constexpr std::array<std::string_view, 12> kEnvelopeMembers{
    "id",     "kind",        "occurred_at", "device_seq", "clock_offset_ms", "corrects",
    "reason", "attachments", "confirmed",   "person",     "claimed",         "fields",
};

/// The members of a submission beside its fields and its claim (claim.h); what could not be read is
/// absent.
struct Envelope {
  std::optional<base::Uuid> id;
  const Definition* definition = nullptr;
  std::optional<base::Timestamp> occurred_at;
  std::optional<std::uint64_t> device_seq;
  std::optional<std::int64_t> clock_offset_ms;
  std::optional<base::Uuid> corrects;
  std::optional<std::string> reason;
  std::vector<std::string> attachments;
  std::vector<std::string> confirmed;  ///< in the order given
  const base::JsonObject* fields = nullptr;
};

/// Reads them in this order, which is that of the refusals: id, kind, occurred_at, device_seq,
/// clock_offset_ms, corrects, reason, attachments, confirmed, fields, then unknown members as
/// given. null for an optional member means absent. `submission` must outlive the envelope.
Envelope read_envelope(const Catalog& catalog, const base::JsonObject& submission,
                       const Surroundings& surroundings, entries::Refusals& refusals);

}  // namespace benchwarden::forms
