#include "seal/note.h"

#include <algorithm>
#include <cassert>

#include "base/base64.h"
#include "base/text.h"

namespace benchwarden::seal {
namespace {

constexpr std::string_view kDash = "\u2014 ";

base::Error no_note(const std::string& why) {
  return {base::ErrorCode::kInvalid, "no signed note: " + why};
}

bool is_note_text(std::string_view text) {
  return text.ends_with('\n') && base::is_valid_utf8(text) &&
         std::all_of(text.begin(), text.end(),
                     [](char c) { return static_cast<unsigned char>(c) >= 0x20 || c == '\n'; });
}

std::string id_bytes(std::uint32_t id) {
  std::string bytes;
  for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>(id >> shift & 0xFFU);
  return bytes;
}

std::uint32_t id_of_bytes(std::string_view bytes) {
  std::uint32_t id = 0;
  for (const char c : bytes.substr(0, kKeyIdBytes)) id = id << 8U | static_cast<unsigned char>(c);
  return id;
}

base::Result<NoteSignature> parse_line(std::string_view line) {
  if (!line.starts_with(kDash)) return no_note("a line below the text begins without a dash");
  line.remove_prefix(kDash.size());
  const std::size_t space = line.find(' ');
  const std::string name(line.substr(0, space));
  if (space == std::string_view::npos || !is_key_name(name)) {
    return no_note("a signature needs the name of its key, a space and base64");
  }
  const auto bytes = base::from_base64(line.substr(space + 1));
  if (!bytes) return no_note("the signature of " + name + " is " + bytes.error().detail);
  if (bytes->size() <= kKeyIdBytes) return no_note("the signature of " + name + " is too short");
  return NoteSignature{name, id_of_bytes(*bytes), bytes->substr(kKeyIdBytes)};
}

/// The lines below the text, the last one ended, too.
base::Result<std::vector<NoteSignature>> parse_signatures(std::string_view lines) {
  std::vector<NoteSignature> signatures;
  while (!lines.empty()) {
    const std::size_t end = lines.find('\n');
    auto signature = parse_line(lines.substr(0, end));
    if (!signature) return signature.error();
    signatures.push_back(*std::move(signature));
    lines.remove_prefix(end + 1);
  }
  if (signatures.empty()) return no_note("there is no signature below the text");
  if (signatures.size() > kNoteSignaturesMax) {
    return no_note("it has " + std::to_string(signatures.size()) + " signatures; at most " +
                   std::to_string(kNoteSignaturesMax) + " are taken");
  }
  return signatures;
}

}  // namespace

Note sign_note(std::string text, const std::string& name, const SigningKey& key) {
  assert(is_note_text(text) && is_key_name(name));
  const Signature signature = key.sign(text);
  const std::uint32_t id = key_id({name, key.public_key()});
  return {std::move(text), {{name, id, std::string(signature.begin(), signature.end())}}};
}

std::string write_note(const Note& note) {
  std::string bytes = note.text + "\n";
  for (const NoteSignature& one : note.signatures) {
    bytes += std::string(kDash) + one.name + " " +
             base::to_base64(id_bytes(one.key_id) + one.bytes) + "\n";
  }
  return bytes;
}

base::Result<Note> parse_note(std::string_view bytes) {
  if (bytes.size() > kNoteBytesMax) {
    return no_note("it is longer than " + std::to_string(kNoteBytesMax) + " bytes");
  }
  if (!is_note_text(bytes)) {
    return no_note("it must be lines of UTF-8, the last one ended, without controls");
  }
  const std::size_t empty_line = bytes.rfind("\n\n");
  if (empty_line == std::string_view::npos) {
    return no_note("there is no empty line between text and signatures");
  }
  auto signatures = parse_signatures(bytes.substr(empty_line + 2));
  if (!signatures) return signatures.error();
  return Note{std::string(bytes.substr(0, empty_line + 1)), *std::move(signatures)};
}

base::Status<> check_signed(const Note& note, const VerifierKey& key) {
  const std::uint32_t id = key_id(key);
  bool found = false;
  for (const NoteSignature& one : note.signatures) {
    if (one.name != key.name || one.key_id != id) continue;
    found = true;
    Signature signature{};
    const bool fits = one.bytes.size() == signature.size();
    if (fits) std::copy(one.bytes.begin(), one.bytes.end(), signature.begin());
    if (!fits || !is_signed_by(key.key, note.text, signature)) {
      return base::Error{base::ErrorCode::kDamaged,
                         "the signature of " + key.name + " is not one of this text"};
    }
  }
  if (found) return base::Done{};
  return base::Error{base::ErrorCode::kNotFound,
                     "no signature is by the key " + verifier_key_text(key)};
}

}  // namespace benchwarden::seal
