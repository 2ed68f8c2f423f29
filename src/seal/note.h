#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "seal/verifier_key.h"

namespace benchwarden::seal {

/// One line under a note; `bytes` is what follows the key id, of whatever kind of key.
struct NoteSignature {
  std::string name;
  std::uint32_t key_id = 0;
  std::string bytes;
};

/// A signed note (C2SP signed-note): text, an empty line, a line for each signature.
struct Note {
  std::string text;  ///< ends in a line feed, which is signed with it
  std::vector<NoteSignature> signatures;
};

inline constexpr std::size_t kNoteBytesMax = 65'536;
inline constexpr std::size_t kNoteSignaturesMax = 16;

/// `text` signed with `key` under `name`: lines, each ended, in valid UTF-8 without controls;
/// asserted.
Note sign_note(std::string text, const std::string& name, const SigningKey& key);
std::string write_note(const Note& note);
/// kInvalid names the part that cannot be read and what is needed there.
base::Result<Note> parse_note(std::string_view bytes);

/// Whether `key` signed the note. kNotFound: no signature names it; kDamaged: one does and is not
/// that of this text. Signatures by other keys say nothing.
base::Status<> check_signed(const Note& note, const VerifierKey& key);

}  // namespace benchwarden::seal
