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

/// Nothing is wrong with it, but its form wants the PIN again before it.
struct ConfirmationNeeded {};

/// What became of a submission: it is in the book, it was refused (every fault named), it waits for
/// the PIN, or the book could not take it (kConflict, kUnavailable).
using RecordOutcome = std::variant<Recorded, Faults, ConfirmationNeeded, base::Error>;

/// The one way into the book for a person's entry: say in whose name it is (signer.h), validate,
/// append, and only then answer. The same id and content again is answered as the first time,
/// whoever sends it.
RecordOutcome record(const Ports& ports, const Sender& sender, const base::Json& submission);
inline RecordOutcome record(const Ports& ports, const Actor& actor, const base::Json& submission) {
  return record(ports, Sender{actor, actor.device}, submission);
}

}  // namespace benchwarden::workshop
