#pragma once

#include <set>
#include <string>
#include <vector>

#include "forms/value_reader.h"

namespace benchwarden::forms {

using NameSet = std::set<std::string, std::less<>>;

/// The earlier state of an entry's fields that a correction lies over.
struct Original {
  const entries::Fields* fields = nullptr;  ///< nullptr: a new entry
  NameSet cleared;                          ///< fields to be empty from now on
};

struct ReadForm {
  entries::Fields fields;  ///< sorted by name; with an original, given ones laid over it
  NameSet given;           ///< names that were given and could be read
  /// Names that should hold a value and could not be read; rules about them cannot be judged.
  NameSet unreadable;
  std::vector<entries::AsRead> as_read;  ///< of the given ones, sorted by field
};

/// Reads the fields of a form in its order, then the unknown ones in theirs, then the groups of
/// which one must be filled in. A field that hangs on an unreadable one is neither missed nor
/// refused as not applicable.
ReadForm read_form(const Definition& definition, const base::JsonObject& members,
                   const Original& original, const ReadContext& context,
                   entries::Refusals& refusals);

}  // namespace benchwarden::forms
