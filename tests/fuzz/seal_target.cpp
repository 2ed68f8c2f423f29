// A signed note, a checkpoint, a proof file or a key, as somebody brings it from elsewhere. What is
// read is written again byte for byte; a signature that holds is the one its key makes.
#include <algorithm>

#include "fuzz/targets.h"
#include "seal/checkpoint.h"
#include "seal/note.h"
#include "seal/tlog_proof.h"
#include "workshop/project_files.h"
#include "workshop/verify_claims.h"
#include "workshop/verify_seals.h"

namespace benchwarden::fuzz {
namespace {

/// The key of the notes in the corpus.
const seal::SigningKey& our_key() {
  static const seal::SigningKey key(std::string(seal::SigningKey::kSeedBytes, 't'));
  return key;
}

template <class T>
std::string fault_of(const char* what, std::string_view input, const base::Result<T>& read,
                     std::string (*write)(const T&)) {
  if (!read) return read.error().detail.empty() ? std::string(what) + " without a reason" : "";
  return write(*read) == input ? "" : std::string(what) + " is written otherwise";
}

std::string fault_of_signatures(const seal::Note& note) {
  for (const seal::NoteSignature& one : note.signatures) {
    const seal::VerifierKey key{one.name, our_key().public_key()};
    if (!seal::check_signed(note, key)) continue;
    const seal::Note ours = seal::sign_note(note.text, one.name, our_key());
    const bool found = std::any_of(
        note.signatures.begin(), note.signatures.end(),
        [&](const auto& signature) { return signature.bytes == ours.signatures.front().bytes; });
    if (!found) return "signed by our key, and not by us";
  }
  return "";
}

std::string fault_of_proof(std::string_view input) {
  const auto shown =
      workshop::verify_entry_proof(input, std::nullopt, workshop::real_definitions().catalog);
  if (!shown) return shown.error().detail.empty() ? "a proof without a reason" : "";
  const bool holds = shown->faults.empty();
  return holds == shown->shown.empty() ? "a proof with faults shows something, or none nothing"
                                       : "";
}

}  // namespace

std::string seal_fault(std::string_view input) {
  const auto note = seal::parse_note(input);
  for (const std::string& fault :
       {fault_of("a note", input, note, seal::write_note),
        fault_of("a checkpoint", input, seal::parse_checkpoint(input), seal::write_checkpoint),
        fault_of("a proof", input, seal::parse_tlog_proof(input), seal::write_tlog_proof),
        fault_of("a key", input, seal::parse_verifier_key(input), seal::verifier_key_text),
        note ? fault_of_signatures(*note) : "", fault_of_proof(input)}) {
    if (!fault.empty()) return fault;
  }
  const auto signed_checkpoint = workshop::read_signed_checkpoint(input);
  return signed_checkpoint.ok() == (note.ok() && seal::parse_checkpoint(note->text).ok())
             ? ""
             : "a signed checkpoint is a note that is a checkpoint, and nothing else is";
}

}  // namespace benchwarden::fuzz
