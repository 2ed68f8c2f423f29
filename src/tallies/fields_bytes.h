#pragma once

#include "entries/field_value.h"
#include "tallies/bytes.h"

namespace benchwarden::tallies {

void write_fields(ByteWriter& writer, const entries::Fields& fields);
/// Fails the reader on anything that no valid entry can hold: an unknown unit, a number out of
/// range, a day that is not in the calendar.
entries::Fields read_fields(ByteReader& reader);

}  // namespace benchwarden::tallies
