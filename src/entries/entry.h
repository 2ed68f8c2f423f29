#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/timestamp.h"
#include "base/uuid.h"
#include "entries/field_value.h"

namespace benchwarden::entries {

inline constexpr int kLeafFormat = 1;

/// A quantity as it was typed, where its unit was not the one the field is stored in.
struct AsRead {
  std::string field;  ///< "gauge_pressure_bar", or "points/0/as_found_bar" inside a list
  base::Decimal value;
  std::string unit;  ///< a unit id
  friend bool operator==(const AsRead&, const AsRead&) = default;
};

/// What the person signs for; everything the sender decides. Two submissions with the same id are
/// the same exactly when these are equal.
struct Content {
  base::Uuid id;
  std::string kind;
  int form_version = 1;
  base::Timestamp occurred_at;  ///< claimed by the sender
  std::optional<std::uint64_t> device_seq;
  std::optional<base::Uuid> corrects;
  std::optional<std::string> reason;
  Fields fields;
  std::vector<AsRead> as_read;
  std::vector<std::string> attachments;  ///< SHA-256 in hex
  /// The same canonical bytes; the order in which fields were given does not matter.
  friend bool operator==(const Content& a, const Content& b);
};

/// Who sent it and how sure we are of that.
struct Signature {
  std::string person;
  bool person_verified = false;
  std::optional<std::string> device;
  std::optional<std::int64_t> clock_offset_ms;  ///< server minus sender
};

/// One dated, signed-for line in the book.
struct Entry {
  Content content;
  Signature signature;
  std::uint64_t seq = 0;      ///< 1 for the first entry
  base::Instant recorded_at;  ///< the server's clock at append
};

}  // namespace benchwarden::entries
