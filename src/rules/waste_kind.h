#pragma once

#include <string>
#include <string_view>

#include "entries/field_value.h"
#include "tallies/records.h"

namespace benchwarden::rules {

/// What kind of waste something is, as far as rules about mixing tell kinds apart.
struct WasteKind {
  std::string type;          ///< a code of the attribute waste_type; "" where it is not known
  std::string may_be;        ///< another type that it may be as well; "" for none
  bool halogenated = false;  ///< known to be, by register, code or entry
  std::string_view code;     ///< of the List of Waste; "" for what has none of its own
};

/// Of a stream: as the register has it, else by the chapter of its code.
WasteKind kind_of_stream(const entries::Fields& stream);
/// What an entry brings into the container it tells of; of no type where it brings nothing.
WasteKind brought_by(const tallies::Record& record);

/// Whether something does not belong in a container for another kind: of another type, or
/// halogenated where the container is not meant for that. What is not known belongs everywhere.
bool belongs_elsewhere(const WasteKind& brought, const WasteKind& own);

}  // namespace benchwarden::rules
