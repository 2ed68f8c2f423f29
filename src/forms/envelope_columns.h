#pragma once

#include <array>
#include <string_view>

namespace benchwarden::forms {

/// The members of every entry that stand before its fields in a CSV file. No field has such a
/// name.
inline constexpr std::array<std::string_view, 11> kEnvelopeColumns{
    "seq",         "id",          "kind",   "form_version",
    "occurred_at", "recorded_at", "person", "person_verified",
    "device",      "corrects",    "reason",
};

}  // namespace benchwarden::forms
