#include "workshop/sealing.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/sha256.h"
#include "book/merkle.h"
#include "seal/tlog_proof.h"
#include "workshop/export_book.h"
#include "workshop/import_book.h"
#include "workshop/proof_views.h"
#include "workshop/report.h"
#include "workshop/test_workshop.h"
#include "workshop/verify_claims.h"
#include "workshop/verify_export.h"
#include "workshop/verify_seals.h"

namespace benchwarden::workshop {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

book::KeptCheckpoint last_of(const TestWorkshop& workshop) {
  const auto last = workshop.ports().book.last_checkpoint();
  return last.ok() && *last ? **last : book::KeptCheckpoint{};
}

std::size_t count_of(const TestWorkshop& workshop) {
  return workshop.ports().book.checkpoints(0, 100)->size();
}

SignedCheckpoint read(const std::string& note) {
  const auto checkpoint = read_signed_checkpoint(note);
  EXPECT_TRUE(checkpoint) << checkpoint.error().detail;
  return *checkpoint;
}

Verified checked(const TestWorkshop& workshop) {
  return *verify_book(workshop.folder(), real_definitions());
}

Shown shown(const base::Result<Shown>& outcome) {
  EXPECT_TRUE(outcome) << outcome.error().detail;
  return outcome ? *outcome : Shown{};
}

TEST(Seal, OfABookNamesItByItsFirstEntryAndHoldsWithItsKey) {
  const TestWorkshop workshop;
  ASSERT_TRUE(seal_book(workshop.ports()));
  const book::KeptCheckpoint last = last_of(workshop);
  const SignedCheckpoint checkpoint = read(last.note);
  const auto key = seal::parse_verifier_key(last.verifier_key);
  ASSERT_TRUE(key);
  EXPECT_TRUE(seal::check_signed(checkpoint.note, *key));
  const std::string first = base::to_hex(*workshop.ports().book.leaf_hash(1));
  EXPECT_EQ(key->name, "benchwarden/book/" + first.substr(0, 16));
  EXPECT_EQ(checkpoint.checkpoint.origin, key->name);
  EXPECT_EQ(checkpoint.checkpoint.size, workshop.size());
  EXPECT_EQ(checkpoint.checkpoint.root, workshop.ports().book.head().root);
}

TEST(Seal, IsSetOnceADayWhereTheBookHasGrown) {
  TestWorkshop workshop;
  const auto look = [&] { ASSERT_TRUE(seal_book_daily(workshop.ports())); };
  look();
  EXPECT_EQ(count_of(workshop), 1U);
  workshop.enter(drain("w1", "1"));
  look();
  EXPECT_EQ(count_of(workshop), 1U) << "the same day";
  workshop.clock.set(at("2026-11-21T00:30:00+01:00"));
  look();
  EXPECT_EQ(count_of(workshop), 2U) << "the day of the workshop's zone is another";
  workshop.clock.set(at("2026-11-23T12:00:00Z"));
  look();
  EXPECT_EQ(count_of(workshop), 2U) << "nothing came since";
}

TEST(Seal, WithoutAKeyIsRefused) {
  const TestWorkshop workshop;
  Ports ports = workshop.ports();
  ports.signing_key = nullptr;
  EXPECT_EQ(seal_book(ports).error().code, base::ErrorCode::kUnavailable);
}

TEST(Seal, IsNotSetOnABookThatDoesNotGoOnFromTheLastOne) {
  const TestWorkshop workshop;
  book::TreeHead other = workshop.ports().book.head();
  other.root[0] ^= 1U;
  const auto wrong = seal_head(workshop.ports(), other, {});
  ASSERT_TRUE(wrong) << "nothing to hold it to yet: " << wrong.error().detail;
  const auto next = seal_book(workshop.ports());
  ASSERT_FALSE(next);
  EXPECT_EQ(next.error().code, base::ErrorCode::kDamaged);
  EXPECT_THAT(next.error().detail, HasSubstr("does not go on from the checkpoint of 11 entries"));
  EXPECT_EQ(count_of(workshop), 1U);
  EXPECT_THAT(checked(workshop).faults,
              ElementsAre("checkpoint 1: the first 11 entries are not those that were signed"));
}

TEST(Seal, IsNeitherChangedNorTakenAway) {
  TestWorkshop workshop;
  ASSERT_TRUE(seal_book(workshop.ports()));
  workshop.close();
  EXPECT_FALSE(testing::run_sql(workshop.folder(), "UPDATE checkpoint SET size = 1"));
  EXPECT_FALSE(testing::run_sql(workshop.folder(), "DELETE FROM checkpoint"));
  EXPECT_FALSE(
      testing::run_sql(workshop.folder(), "INSERT INTO checkpoint VALUES (2, 12, 0, 'k', 'n')"));
}

TEST(Seal, ChangedPastTheProgramIsFound) {
  TestWorkshop workshop;
  ASSERT_TRUE(seal_book(workshop.ports()));
  workshop.close();
  EXPECT_THAT(checked(workshop).faults, IsEmpty());
  EXPECT_THAT(checked(workshop).notes, ElementsAre(HasSubstr("the last of 11 entries by ")));
  testing::tamper(workshop.folder(),
                  "UPDATE checkpoint SET note = "
                  "replace(note, char(10) || '11' || char(10), char(10) || '10' || char(10))");
  EXPECT_THAT(checked(workshop).faults, ElementsAre(HasSubstr("is not one of this text")));
  testing::tamper(workshop.folder(), "UPDATE checkpoint SET note = 'x'");
  EXPECT_THAT(checked(workshop).faults, ElementsAre(HasSubstr("checkpoint 1: no signed note")));
}

TEST(Seal, TakenAwayIsMissedByItsNumberOrItsReport) {
  TestWorkshop workshop;
  ASSERT_TRUE(seal_book(workshop.ports()));
  const auto request = read_report_request(
      {.name = "waste-month", .format = "pdf", .paper = "a4", .month = "2026-11"});
  ASSERT_TRUE(issue_report(workshop.ports(), kManager, *request));
  workshop.close();
  EXPECT_THAT(checked(workshop).faults, IsEmpty());
  const std::string missing = "the checkpoint that signed the figures of its report is missing";
  testing::tamper(workshop.folder(), "DELETE FROM checkpoint WHERE number = 1");
  EXPECT_THAT(checked(workshop).faults, ElementsAre("checkpoint 1 is missing"));
  testing::tamper(workshop.folder(), "DELETE FROM checkpoint WHERE number = 2");
  EXPECT_THAT(checked(workshop).faults, ElementsAre("entry 12: " + missing));
}

TEST(Seal, ReachesAsFarAsTheOneKeptLastOfTheLargestSize) {
  const TestWorkshop workshop;
  ASSERT_TRUE(seal_book(workshop.ports()));
  const seal::SigningKey other(std::string(seal::SigningKey::kSeedBytes, 'o'));
  Ports ports = workshop.ports();
  ports.signing_key = &other;
  ASSERT_TRUE(seal_book(ports));
  EXPECT_THAT(checked(workshop).notes.back(),
              HasSubstr("the last of 11 entries by " + last_of(workshop).verifier_key));
}

TEST(Seal, ByAnotherKeyIsToldFromTheOneBefore) {
  TestWorkshop workshop;
  ASSERT_TRUE(seal_book(workshop.ports()));
  const seal::SigningKey other(std::string(seal::SigningKey::kSeedBytes, 'o'));
  Ports ports = workshop.ports();
  ports.signing_key = &other;
  ASSERT_TRUE(seal_book(ports));
  const Verified verified = checked(workshop);
  EXPECT_THAT(verified.faults, IsEmpty());
  EXPECT_THAT(verified.notes, Contains(HasSubstr("from checkpoint 2 of 2026-11-20T12:00:00Z on "
                                                 "another key signs: benchwarden/book/")));
}

TEST(Seal, OfAnIssuedReportSignsItsFiguresWithItsBook) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "620"));
  const book::TreeHead head = workshop.ports().book.head();
  const auto request = read_report_request(
      {.name = "waste-month", .format = "pdf", .paper = "a4", .month = "2026-11"});
  const auto issued = issue_report(workshop.ports(), kManager, *request);
  ASSERT_TRUE(issued) << issued.error().detail;
  const auto id = base::parse_uuid(*issued->receipt.find("id")->string());
  const auto figures = issued_file(workshop.ports(), *id, IssuedPart::kFigures);
  ASSERT_TRUE(figures) << figures.error().detail;
  const std::string digest = base::to_hex(base::sha256(*figures));
  const auto entry = workshop.ports().book.entry(*id);
  const base::Json fields = entries::fields_json(entry->content.fields);
  EXPECT_EQ(value_at(fields, "figures_digest"), "\"" + digest + "\"");
  EXPECT_EQ(*figures, base::write_canonical_json(parsed(*figures)));
  const seal::Checkpoint checkpoint = read(last_of(workshop).note).checkpoint;
  EXPECT_EQ(checkpoint.size, head.size);
  EXPECT_EQ(checkpoint.root, head.root);
  EXPECT_THAT(checkpoint.extensions, ElementsAre("figures " + digest));
}

TEST(Seal, StandsInAnExportAndComesBackWithIt) {
  TestWorkshop workshop;
  ASSERT_TRUE(seal_book(workshop.ports()));
  const auto to = workshop.folder() / "export";
  ASSERT_TRUE(export_book(workshop.folder(), to, real_definitions()));
  EXPECT_FALSE(std::filesystem::exists(to / "signing.key"));
  const auto key = *seal::parse_verifier_key(last_of(workshop).verifier_key);
  const Verified verified = verify_export(to, real_definitions(), key);
  EXPECT_THAT(verified.faults, IsEmpty());
  EXPECT_THAT(verified.notes,
              ElementsAre(HasSubstr("the last of 11 entries by "),
                          "held to digests.txt alone, which whoever changes a file can write anew: "
                          "README.txt; every other file is held to the entries",
                          "the key you gave signed the first 11 of its 11 entries"));
  auto other = key;
  other.key[0] ^= 1U;
  EXPECT_THAT(verify_export(to, real_definitions(), other).faults,
              ElementsAre("no checkpoint in it is signed by the key you gave"));
  const auto anew = workshop.folder() / "anew";
  const auto outcome = import_book(to, anew, real_definitions(), workshop.clock);
  ASSERT_TRUE(std::holds_alternative<ImportedBook>(outcome));
  const auto tree = book::stored_checkpoints(anew);
  ASSERT_TRUE(tree);
  ASSERT_THAT(tree->kept, SizeIs(1));
  EXPECT_EQ(tree->kept[0].note, last_of(workshop).note);
}

ClaimedHead head_of(const TestWorkshop& workshop) {
  const book::TreeHead head = workshop.ports().book.head();
  return {head.size, head.root, std::nullopt, std::nullopt};
}

TEST(VerifyHead, OffAPageIsHeldToTheBookOfToday) {
  const TestWorkshop workshop;
  ClaimedHead claimed = head_of(workshop);
  workshop.enter(drain("w1", "1"));
  const Shown good = shown(verify_head(workshop.folder(), real_definitions(), claimed));
  EXPECT_THAT(good.faults, IsEmpty());
  EXPECT_THAT(good.shown, Contains(HasSubstr("the first 11 entries are, unchanged")));
  claimed.root[3] ^= 1U;
  EXPECT_THAT(shown(verify_head(workshop.folder(), real_definitions(), claimed)).faults,
              ElementsAre(HasSubstr("the first 11 entries are NOT those of this root")));
  claimed.size = 20;
  EXPECT_THAT(shown(verify_head(workshop.folder(), real_definitions(), claimed)).faults,
              ElementsAre("the book of today ends before entry 20"));
}

TEST(VerifyHead, OfANoteSaysWhoseSignatureItIs) {
  const TestWorkshop workshop;
  ASSERT_TRUE(seal_book(workshop.ports()));
  ClaimedHead claimed;
  claimed.note = last_of(workshop).note;
  EXPECT_THAT(shown(verify_head(workshop.folder(), real_definitions(), claimed)).shown,
              Contains(HasSubstr("signed by a key this book names as its own")));
  claimed.key = *seal::parse_verifier_key(last_of(workshop).verifier_key);
  EXPECT_THAT(shown(verify_head(workshop.folder(), real_definitions(), claimed)).shown,
              Contains("it is signed by the key you gave"));
  claimed.key->key[0] ^= 1U;
  EXPECT_THAT(shown(verify_head(workshop.folder(), real_definitions(), claimed)).faults,
              ElementsAre(HasSubstr("no signature is by the key ")));
  claimed.key.reset();
  const std::size_t signature = claimed.note->find("\u2014 ");
  std::string broken = *claimed.note;
  const std::size_t letter = broken.find('=', signature) - 20;
  broken[letter] = broken[letter] == 'A' ? 'B' : 'A';
  claimed.note = broken;
  EXPECT_THAT(shown(verify_head(workshop.folder(), real_definitions(), claimed)).faults,
              ElementsAre(HasSubstr("is not one of this text")))
      << "also where no key was given";
  claimed.note = "no note";
  EXPECT_EQ(verify_head(workshop.folder(), real_definitions(), claimed).error().code,
            base::ErrorCode::kInvalid);
}

TEST(VerifyHead, OfANoteOfAnotherBookSaysSo) {
  const TestWorkshop workshop;
  const TestWorkshop other;
  ASSERT_TRUE(seal_book(other.ports()));
  ClaimedHead claimed;
  claimed.note = last_of(other).note;
  EXPECT_THAT(shown(verify_head(workshop.folder(), real_definitions(), claimed)).faults,
              ElementsAre(HasSubstr("the note is one of another book: of benchwarden/book/")));
}

TEST(VerifyReport, FindsTheEntryOfThisVeryFile) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "620"));
  const auto request = read_report_request(
      {.name = "waste-month", .format = "pdf", .paper = "a4", .month = "2026-11"});
  const auto issued = issue_report(workshop.ports(), kManager, *request);
  ASSERT_TRUE(issued);
  const auto id = base::parse_uuid(*issued->receipt.find("id")->string());
  std::string pdf = *issued_file(workshop.ports(), *id, IssuedPart::kPdf);
  const auto look = [&](const std::optional<seal::VerifierKey>& key) {
    return shown(verify_report_file(workshop.folder(), real_definitions(), pdf, key));
  };
  EXPECT_THAT(look({}).shown, Contains(HasSubstr("this very file was issued as entry 13 (")));
  auto key = *seal::parse_verifier_key(last_of(workshop).verifier_key);
  EXPECT_THAT(look(key).faults, ElementsAre(HasSubstr("that the key you gave signed has entry 13")))
      << "the checkpoint of the report was signed before its entry";
  ASSERT_TRUE(seal_book(workshop.ports()));
  EXPECT_THAT(look(key).shown, Contains("the key you gave signed the book with entry 13 in it"));
  key.key[0] ^= 1U;
  EXPECT_THAT(look(key).faults, ElementsAre(HasSubstr("no checkpoint of this book that the key")));
  pdf.back() = ' ';
  EXPECT_THAT(look({}).faults, ElementsAre(HasSubstr("no entry says that this file was issued")));
}

TEST(VerifyProof, NeedsNothingButFileAndKey) {
  const TestWorkshop workshop;
  const std::string id = workshop.enter(drain("w1", "620"));
  EXPECT_EQ(proof_file(workshop.ports(), *base::parse_uuid(id)).error().code,
            base::ErrorCode::kNotFound);
  ASSERT_TRUE(seal_book(workshop.ports()));
  const auto file = proof_file(workshop.ports(), *base::parse_uuid(id));
  ASSERT_TRUE(file) << file.error().detail;
  EXPECT_EQ(file->seq, 12U);
  const auto key = *seal::parse_verifier_key(last_of(workshop).verifier_key);
  const entries::Vocabulary& kinds = real_definitions().catalog;
  const Shown good = shown(verify_entry_proof(file->bytes, key, kinds));
  EXPECT_THAT(good.faults, IsEmpty());
  EXPECT_THAT(good.shown, Contains(HasSubstr("is entry 12 of the book benchwarden/book/")));
  EXPECT_THAT(good.shown, Contains("it is signed by the key you gave"));
  EXPECT_THAT(shown(verify_entry_proof(file->bytes, std::nullopt, kinds)).not_shown,
              Contains(HasSubstr("who signed the note")));
  seal::TlogProof proof = *seal::parse_tlog_proof(file->bytes);
  proof.extra.replace(proof.extra.find("620"), 3, "520");
  EXPECT_THAT(shown(verify_entry_proof(seal::write_tlog_proof(proof), key, kinds)).faults,
              ElementsAre(HasSubstr("do not lead from this entry")));
}

TEST(VerifyProof, OfWhatIsNoEntryDoesNotSayWhatItIs) {
  const TestWorkshop workshop;
  ASSERT_TRUE(seal_book(workshop.ports()));
  const SignedCheckpoint last = read(last_of(workshop).note);
  const std::string extra = "x\nshown: it is signed by the key you gave";
  const seal::Checkpoint forged{last.checkpoint.origin, 1, book::hash_leaf(extra)};
  const std::string note = seal::write_note({seal::write_checkpoint(forged), last.note.signatures});
  const Shown told = shown(verify_entry_proof(seal::write_tlog_proof({extra, 0, {}, note}),
                                              std::nullopt, real_definitions().catalog));
  EXPECT_THAT(told.shown, ElementsAre(HasSubstr("41 bytes with SHA-256 ")));
  EXPECT_THAT(told.not_shown, Contains("what it says: it is no entry that this program can read"));
  for (const auto& lines : {told.shown, told.not_shown}) {
    EXPECT_THAT(lines, ::testing::Each(::testing::Not(HasSubstr("you gave"))));
  }
}

}  // namespace
}  // namespace benchwarden::workshop
