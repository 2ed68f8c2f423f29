#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "base/timestamp.h"
#include "entries/effect.h"
#include "tallies/shared_text.h"

namespace benchwarden::tallies {

class ByteReader;

/// What one entry told of one thing: a look at a cylinder, the closed drum of an inspection, the
/// units a cylinder charged. Its fields are packed, and kept once where many say the same.
class Record {
 public:
  Record(base::Instant when, std::uint64_t number, entries::Outcome decided,
         const entries::Told& told);

  /// With the fields as another record packed them.
  Record(base::Instant when, std::uint64_t number, SharedText kind_of_entry, SharedText packed)
      : at(when), seq(static_cast<std::uint32_t>(number)), kind(kind_of_entry), packed_(packed) {}

  base::Instant at;
  std::uint32_t seq = 0;  ///< of four thousand million, for which no disk has room
  SharedText kind;        ///< of the entry
  entries::Outcome outcome : 8 = entries::Outcome::kRecorded;
  bool struck = false;  ///< struck out, or corrected to be about another thing

  /// The fields the entry's form keeps, as corrected. Who needs one of many records asks for that.
  [[nodiscard]] entries::Fields fields() const;
  [[nodiscard]] bool has(std::string_view field) const;
  /// None where the field is not there or of another type.
  [[nodiscard]] std::optional<quantities::Quantity> quantity(std::string_view field) const;
  [[nodiscard]] std::optional<base::CivilDate> date(std::string_view field) const;
  /// As of tallies/facts.h; valid as long as the record is.
  [[nodiscard]] std::string_view word(std::string_view field) const;
  [[nodiscard]] std::optional<quantities::Quantity> measure(std::string_view field,
                                                            std::string_view unit) const;
  /// The value of such a measure.
  [[nodiscard]] std::optional<base::Decimal> decimal(std::string_view field,
                                                     std::string_view unit) const;

  [[nodiscard]] SharedText packed() const { return packed_; }
  /// Whether these are the packed fields of some record.
  static bool is_packed(std::string_view bytes);

  friend bool operator==(const Record&, const Record&) = default;

 private:
  SharedText packed_;
};
static_assert(sizeof(Record) <= 24, "a book may hold a million of them");

}  // namespace benchwarden::tallies
