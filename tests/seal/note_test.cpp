#include "seal/note.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace benchwarden::seal {
namespace {

// The example of C2SP signed-note (repository at 5ba5ee8, 2026-07-22): its verifier key, the key id
// in it, and its note.
constexpr const char* kExampleKey =
    "example.com/foo+530d903a+AekyeRrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3U2k";
constexpr const char* kExampleNote =
    "This is an example message.\n"
    "\n"
    "\u2014 example.com/foo "
    "Uw2QOkn8srV1yJGh2VYRlL1Tnagv1YEq6TfXppzi2ONncAlTgK7Ztg1ERYNZXsYjOBH3mFXmRKuwHjG1Yu72IneyaQM="
    "\n";

const std::string kSeed(SigningKey::kSeedBytes, 's');

std::string why_no_note(const std::string& note) {
  const auto parsed = parse_note(note);
  return parsed ? "taken" : parsed.error().detail;
}

TEST(VerifierKey, OfTheSpecificationIsReadAndWrittenAlike) {
  const auto key = parse_verifier_key(kExampleKey);
  ASSERT_TRUE(key) << key.error().detail;
  EXPECT_EQ(key->name, "example.com/foo");
  EXPECT_EQ(key_id(*key), 0x530d903aU);
  EXPECT_EQ(verifier_key_text(*key), kExampleKey);
}

TEST(VerifierKey, SaysWhatIsWrongWithOne) {
  const std::string key = "+AekyeRrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3U2k";
  const auto why = [](const std::string& text) {
    const auto parsed = parse_verifier_key(text);
    return parsed ? "taken" : parsed.error().detail;
  };
  EXPECT_EQ(why(""), "no verifier key: name, key id and key are needed, with '+' between them");
  EXPECT_EQ(why("name+530d903a"), why(""));
  EXPECT_EQ(why("+530d903a" + key),
            "no verifier key: its name is empty or holds a space or a control");
  EXPECT_EQ(why("a b+530d903a" + key), why("+530d903a" + key));
  EXPECT_EQ(why("example.com/foo+530d903b" + key),
            "no verifier key: its key id is not that of its name and key, 530d903a");
  EXPECT_EQ(why("example.com/Foo+530d903a" + key).substr(0, 30), "no verifier key: its key id is");
  EXPECT_EQ(why("example.com/foo+530d903a+Aeky"),
            "no verifier key: only Ed25519 is known here: the byte 01 and 32 bytes of key");
  EXPECT_EQ(why("example.com/foo+530d903a+AukyeRrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3U2k"),
            why("example.com/foo+530d903a+Aeky"));
  EXPECT_EQ(why("example.com/foo+530d903a+Aek"),
            "no verifier key: what follows the key id is no base64 (RFC 4648, section 4)");
}

TEST(VerifierKey, NameHoldsNoSpaceNoControlNoPlus) {
  for (const char* name : {"a", "workshop.example/book/01", "w\u00E9", "a-b_c"}) {
    EXPECT_TRUE(is_key_name(name)) << name;
  }
  for (const char* name :
       {"", "a b", "a\tb", "a\nb", "a\x7F", "a+b", "a\u00A0b", "a\u2003b", "a\u3000b", "a\xFF"}) {
    EXPECT_FALSE(is_key_name(name)) << name;
  }
}

TEST(Note, OfTheSpecificationIsSignedByItsKey) {
  const auto note = parse_note(kExampleNote);
  ASSERT_TRUE(note) << note.error().detail;
  EXPECT_EQ(note->text, "This is an example message.\n");
  EXPECT_EQ(write_note(*note), kExampleNote);
  EXPECT_TRUE(check_signed(*note, *parse_verifier_key(kExampleKey)));
}

TEST(Note, SignedHereIsReadBackAndHolds) {
  const SigningKey key(kSeed);
  const Note note = sign_note("one\n\nthree\n", "name", key);
  const auto read = parse_note(write_note(note));
  ASSERT_TRUE(read) << read.error().detail;
  EXPECT_EQ(read->text, "one\n\nthree\n");
  EXPECT_TRUE(check_signed(*read, {"name", key.public_key()}));
}

TEST(Note, ChangedAnywhereDoesNotHold) {
  const VerifierKey key = *parse_verifier_key(kExampleKey);
  const std::string good = kExampleNote;
  for (std::size_t at = 0; at < good.size(); ++at) {
    std::string changed = good;
    changed[at] = changed[at] == 'A' ? 'B' : 'A';
    const auto note = parse_note(changed);
    EXPECT_FALSE(note && check_signed(*note, key)) << "byte " << at;
  }
}

TEST(Note, TellsAStrangersSignatureFromAFalseOne) {
  const VerifierKey key = *parse_verifier_key(kExampleKey);
  Note note = sign_note("text\n", "stranger", SigningKey(kSeed));
  EXPECT_EQ(check_signed(note, key).error().code, base::ErrorCode::kNotFound);
  note.signatures.push_back({key.name, key_id(key), std::string(64, 'x')});
  EXPECT_EQ(check_signed(note, key).error().code, base::ErrorCode::kDamaged);
  note.signatures.back().bytes = "short";
  EXPECT_EQ(check_signed(note, key).error().code, base::ErrorCode::kDamaged);
}

TEST(Note, IgnoresSignaturesOfUnknownKindBesideAKnownOne) {
  const SigningKey key(kSeed);
  Note note = sign_note("text\n", "name", key);
  note.signatures.insert(note.signatures.begin(), {"other", 7, std::string(2'420, 'm')});
  const auto read = parse_note(write_note(note));
  ASSERT_TRUE(read) << read.error().detail;
  EXPECT_TRUE(check_signed(*read, {"name", key.public_key()}));
}

TEST(Note, TakesSixteenSignaturesAndNoMore) {
  Note note = sign_note("text\n", "name", SigningKey(kSeed));
  while (note.signatures.size() < 16) note.signatures.push_back({"other", 7, "bytes"});
  EXPECT_TRUE(parse_note(write_note(note)));
  note.signatures.push_back({"other", 7, "bytes"});
  EXPECT_EQ(why_no_note(write_note(note)),
            "no signed note: it has 17 signatures; at most 16 are taken");
}

TEST(Note, SaysWhatIsWrongWithOne) {
  EXPECT_EQ(why_no_note(""),
            "no signed note: it must be lines of UTF-8, the last one ended, without controls");
  EXPECT_EQ(why_no_note("text\n\n\u2014 a AAAAAAAA"), why_no_note(""));
  EXPECT_EQ(why_no_note("te\xFFxt\n\n\u2014 a AAAAAAAA\n"), why_no_note(""));
  EXPECT_EQ(why_no_note("te\txt\n\n\u2014 a AAAAAAAA\n"), why_no_note(""));
  EXPECT_EQ(why_no_note("text\r\n\r\n\u2014 a AAAAAAAA\r\n"), why_no_note(""));
  EXPECT_EQ(why_no_note("text\n\u2014 a AAAAAAAA\n"),
            "no signed note: there is no empty line between text and signatures");
  EXPECT_EQ(why_no_note("text\n\n"), "no signed note: there is no signature below the text");
  EXPECT_EQ(why_no_note("text\n\n- a AAAAAAAA\n"),
            "no signed note: a line below the text begins without a dash");
  EXPECT_EQ(why_no_note("text\n\n\u2014 AAAAAAAA\n"),
            "no signed note: a signature needs the name of its key, a space and base64");
  EXPECT_EQ(why_no_note("text\n\n\u2014 a+b AAAAAAAA\n"), why_no_note("text\n\n\u2014 AAAAAAAA\n"));
  EXPECT_EQ(why_no_note("text\n\n\u2014 a AAAA\n"),
            "no signed note: the signature of a is too short");
  EXPECT_EQ(why_no_note("text\n\n\u2014 a b c\n"),
            "no signed note: the signature of a is no base64 (RFC 4648, section 4)");
  EXPECT_EQ(why_no_note(std::string(kNoteBytesMax, 'x') + "\n"),
            "no signed note: it is longer than 65536 bytes");
}

}  // namespace
}  // namespace benchwarden::seal
