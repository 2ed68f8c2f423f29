#include "tallies/record.h"

#include "tallies/bytes.h"
#include "tallies/facts.h"
#include "tallies/fields_bytes.h"

namespace benchwarden::tallies {

Record::Record(base::Instant when, std::uint64_t number, entries::Outcome decided,
               const entries::Told& told)
    : at(when), seq(number), kind(told.kind), outcome(decided) {
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

void Record::write(ByteWriter& writer) const {
  writer.signed_number(at.ms);
  writer.number(seq);
  writer.number(static_cast<std::uint64_t>(outcome) * 2 + (struck ? 1 : 0));
  writer.text(kind);
  writer.text(packed_);
}

Record Record::read(ByteReader& reader) {
  constexpr auto kCodeMax = static_cast<std::uint64_t>(entries::Outcome::kWithdrawn) * 2 + 1;
  Record record;
  record.at.ms = reader.signed_number();
  record.seq = reader.number();
  const std::uint64_t code = reader.number_up_to(kCodeMax);
  record.outcome = static_cast<entries::Outcome>(code / 2);
  record.struck = code % 2 == 1;
  const std::string_view kind = reader.view();
  const std::string_view packed = reader.view();
  ByteReader inside(packed);
  read_fields(inside);
  if (inside.failed() || !inside.at_end()) reader.fail();
  if (reader.failed()) return record;
  record.kind = SharedText(kind);
  record.packed_ = SharedText(packed);
  return record;
}

}  // namespace benchwarden::tallies
