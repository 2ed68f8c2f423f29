#pragma once

#include <string>
#include <variant>
#include <vector>

#include "base/json.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

struct Recorded {
  base::Uuid id;
  book::Receipt receipt;
};

/// One broken rule of a submission, in words.
struct Fault {
  std::string pointer;  ///< RFC 6901, into the submission
  std::string code;
  std::string sentence;
};
using Faults = std::vector<Fault>;

/// What became of a submission: it is in the book, it was refused (every fault named), or the book
/// could not take it (kConflict, kUnavailable).
using RecordOutcome = std::variant<Recorded, Faults, base::Error>;

/// The one way into the book for a person's entry: validate, append, and only then answer.
RecordOutcome record(const Ports& ports, const Actor& actor, const base::Json& submission);

}  // namespace benchwarden::workshop
