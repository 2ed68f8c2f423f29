#pragma once

#include <optional>
#include <string_view>

#include "entries/field_value.h"
#include "tallies/bytes.h"

namespace benchwarden::tallies {

void write_fields(ByteWriter& writer, const entries::Fields& fields);
/// Fails the reader on anything that no valid entry can hold: an unknown unit, a number out of
/// range, a day that is not in the calendar.
entries::Fields read_fields(ByteReader& reader);

// One field of them, where they are known to be whole: the others are passed over, not unpacked.
// None where it is not there or of another type.
bool has_field(ByteReader reader, std::string_view name);
/// Of a text, a code or an id; valid as long as the bytes are.
std::string_view read_word(ByteReader reader, std::string_view name);
std::optional<quantities::Quantity> read_quantity(ByteReader reader, std::string_view name);
/// Of a quantity in this unit.
std::optional<base::Decimal> read_decimal(ByteReader reader, std::string_view name,
                                          std::string_view unit);
std::optional<base::CivilDate> read_date(ByteReader reader, std::string_view name);

}  // namespace benchwarden::tallies
