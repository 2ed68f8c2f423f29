#include "tallies/record.h"

#include "tallies/bytes.h"
#include "tallies/facts.h"
#include "tallies/fields_bytes.h"

namespace benchwarden::tallies {

Record::Record(base::Instant when, std::uint64_t number, entries::Outcome decided,
               const entries::Told& told)
    : at(when), seq(static_cast<std::uint32_t>(number)), kind(told.kind), outcome(decided) {
  ByteWriter writer;
  write_fields(writer, told.fields);
  packed_ = SharedText(writer.bytes());
}

entries::Fields Record::fields() const {
  ByteReader reader(packed_);
  return read_fields(reader);
}

bool Record::has(std::string_view field) const { return has_field(ByteReader(packed_), field); }

std::optional<quantities::Quantity> Record::quantity(std::string_view field) const {
  return read_quantity(ByteReader(packed_), field);
}

std::optional<base::CivilDate> Record::date(std::string_view field) const {
  return read_date(ByteReader(packed_), field);
}

std::string_view Record::word(std::string_view field) const {
  return read_word(ByteReader(packed_), field);
}

std::optional<quantities::Quantity> Record::measure(std::string_view field,
                                                    std::string_view unit) const {
  const auto found = quantity(field);
  return found && is_measure(*found, unit) ? found : std::nullopt;
}

std::optional<base::Decimal> Record::decimal(std::string_view field, std::string_view unit) const {
  const auto value = read_decimal(ByteReader(packed_), field, unit);
  return value && is_measured(*value) ? value : std::nullopt;
}

bool Record::is_packed(std::string_view bytes) {
  ByteReader reader(bytes);
  read_fields(reader);
  return !reader.failed() && reader.at_end();
}

}  // namespace benchwarden::tallies
