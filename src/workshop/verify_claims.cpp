#include "workshop/verify_claims.h"

#include <algorithm>
#include <utility>

#include "base/sha256.h"
#include "book/check_proofs.h"
#include "book/merkle.h"
#include "book/read_book.h"
#include "seal/tlog_proof.h"
#include "workshop/sealing.h"
#include "workshop/verify_seals.h"

namespace benchwarden::workshop {
namespace {

constexpr const char* kNotTruth =
    "whether what was entered is true: only that it was not changed since";

std::string entries_text(std::uint64_t size) {
  return "the first " + std::to_string(size) + " entries";
}

/// The book with every byte checked; its faults end what was asked.
base::Result<Shown> checked_book(const std::filesystem::path& folder,
                                 const Definitions& definitions) {
  auto verified = verify_book(folder, definitions);
  if (!verified) return verified.error();
  Shown outcome;
  outcome.faults = std::move(verified->faults);
  outcome.shown.push_back("the book of today has " + std::to_string(verified->head.size) +
                          " entries and root " + base::to_hex(verified->head.root) +
                          ", and every stored byte of it fits");
  return outcome;
}

/// Says of a note whether the key that was given signed it.
void judge_by_given_key(const seal::Note& note, const seal::VerifierKey& given, Shown& outcome) {
  const auto holds = seal::check_signed(note, given);
  if (holds) {
    outcome.shown.emplace_back("it is signed by the key you gave");
  } else {
    outcome.faults.push_back(holds.error().detail);
  }
}

/// Says of a note whether a key that the book names signed it. A signature that names one of them
/// and is not that of the note is a fault.
void judge_by_keys_of(const book::CheckpointedTree& tree, const seal::Note& note, Shown& outcome) {
  for (const book::KeptCheckpoint& kept : tree.kept) {
    const auto key = seal::parse_verifier_key(kept.verifier_key);
    if (!key) continue;
    const auto holds = seal::check_signed(note, *key);
    if (!holds && holds.error().code == base::ErrorCode::kNotFound) continue;
    if (!holds) return outcome.faults.push_back(holds.error().detail);
    outcome.shown.push_back("it is signed by a key this book names as its own: " +
                            kept.verifier_key);
    outcome.not_shown.emplace_back(
        "whether that key is the workshop's: hold it to the one on old paper, or give it as --key");
    return;
  }
  outcome.not_shown.emplace_back(
      "who signed it: none of the keys this book names did. A book made anew has another key; "
      "hold the verifier key to the one on old paper, and give it as --key");
}

/// Holds the root of that size to the book.
base::Status<> judge_root(const std::filesystem::path& folder, const book::TreeHead& head,
                          Shown& outcome) {
  const auto root = book::stored_root(folder, head.size);
  if (!root) return root.error();
  if (!*root) {
    outcome.faults.push_back("the book of today ends before entry " + std::to_string(head.size));
  } else if (**root != head.root) {
    outcome.faults.push_back(entries_text(head.size) +
                             " are NOT those of this root; today they give " +
                             base::to_hex(**root));
  } else {
    outcome.shown.push_back(entries_text(head.size) +
                            " are, unchanged and in their order, those of the root given");
  }
  return base::Done{};
}

/// Whether the key signed a book that has the entry in it.
void judge_cover(const book::CheckpointedTree& tree, std::uint64_t seq,
                 const seal::VerifierKey& given, Shown& outcome) {
  const bool covered =
      std::any_of(tree.kept.begin(), tree.kept.end(), [&](const book::KeptCheckpoint& kept) {
        const auto read = read_signed_checkpoint(kept.note);
        return kept.size >= seq && read && seal::check_signed(read->note, given);
      });
  if (covered) {
    outcome.shown.push_back("the key you gave signed the book with entry " + std::to_string(seq) +
                            " in it");
  } else {
    outcome.faults.push_back("no checkpoint of this book that the key you gave signed has entry " +
                             std::to_string(seq) + " in it");
  }
}

/// What a proof that holds is one of.
void tell_entry(const seal::TlogProof& proof, const seal::Checkpoint& checkpoint,
                const entries::Vocabulary& vocabulary, Shown& outcome) {
  const std::string number = std::to_string(proof.index + 1);
  const std::string where = " of the book " + checkpoint.origin + " as it was with " +
                            std::to_string(checkpoint.size) + " entries";
  const auto entry = entries::read_leaf(proof.extra, vocabulary);
  if (entry && entry->seq == proof.index + 1) {
    outcome.shown.push_back("what stands behind 'extra' is entry " + number + where + ": " +
                            proof.extra);
    return;
  }
  outcome.shown.push_back("what stands behind 'extra', " + std::to_string(proof.extra.size()) +
                          " bytes with SHA-256 " + base::to_hex(base::sha256(proof.extra)) +
                          ", is leaf " + number + where);
  outcome.not_shown.emplace_back("what it says: it is no entry that this program can read");
}

}  // namespace

base::Result<Shown> verify_head(const std::filesystem::path& folder, const Definitions& definitions,
                                const ClaimedHead& claimed) {
  book::TreeHead head{claimed.size, claimed.root};
  std::optional<SignedCheckpoint> read;
  if (claimed.note) {
    auto parsed = read_signed_checkpoint(*claimed.note);
    if (!parsed) return parsed.error();
    head = {parsed->checkpoint.size, parsed->checkpoint.root};
    read = *std::move(parsed);
  }
  auto outcome = checked_book(folder, definitions);
  if (!outcome || !outcome->faults.empty()) return outcome;
  const auto tree = book::stored_checkpoints(folder);
  if (!tree) return tree.error();
  const std::string origin = tree->first_leaf ? book_origin(*tree->first_leaf) : "";
  if (read && tree->first_leaf && read->checkpoint.origin != origin) {
    outcome->faults.push_back("the note is one of another book: of " + read->checkpoint.origin +
                              ", and this book is " + origin);
    return outcome;
  }
  const auto held = judge_root(folder, head, *outcome);
  if (!held) return held.error();
  if (read && claimed.key) {
    judge_by_given_key(read->note, *claimed.key, *outcome);
  } else if (read) {
    judge_by_keys_of(*tree, read->note, *outcome);
  }
  outcome->not_shown.emplace_back(kNotTruth);
  return outcome;
}

base::Result<Shown> verify_report_file(const std::filesystem::path& folder,
                                       const Definitions& definitions, std::string_view bytes,
                                       const std::optional<seal::VerifierKey>& key) {
  auto outcome = checked_book(folder, definitions);
  if (!outcome || !outcome->faults.empty()) return outcome;
  const std::string digest = base::to_hex(base::sha256(bytes));
  auto book = book::ReadBook::open(folder, definitions.catalog);
  if (!book) return book.error();
  const auto tree = book::stored_checkpoints(folder);
  if (!tree) return tree.error();
  bool found = false;
  const auto read = book->each([&](const entries::Entry& entry) -> base::Status<> {
    const auto& content = entry.content;
    const auto* said = entries::find_field_as<entries::Text>(content.fields, "report_digest");
    if (content.kind != "report-issued" || said == nullptr || said->text != digest) {
      return base::Done{};
    }
    found = true;
    outcome->shown.push_back("this very file was issued as entry " + std::to_string(entry.seq) +
                             " (" + base::format_uuid(content.id) + ") at " +
                             base::format_rfc3339_utc(entry.recorded_at) + " by " +
                             entry.signature.person);
    if (key) judge_cover(*tree, entry.seq, *key, *outcome);
    return base::Done{};
  });
  if (!read) return read.error();
  if (!found) {
    outcome->faults.push_back("no entry says that this file was issued: SHA-256 " + digest);
  }
  outcome->not_shown.emplace_back(kNotTruth);
  return outcome;
}

base::Result<Shown> verify_entry_proof(std::string_view bytes,
                                       const std::optional<seal::VerifierKey>& key,
                                       const entries::Vocabulary& vocabulary) {
  const auto proof = seal::parse_tlog_proof(bytes);
  if (!proof) return proof.error();
  const auto read = read_signed_checkpoint(proof->note);
  if (!read) return read.error();
  Shown outcome;
  const book::TreeHead head{read->checkpoint.size, read->checkpoint.root};
  if (book::proves_inclusion(proof->index + 1, book::hash_leaf(proof->extra), head, proof->path)) {
    tell_entry(*proof, read->checkpoint, vocabulary, outcome);
  } else {
    outcome.faults.emplace_back("the hashes do not lead from this entry to the root of the note");
  }
  if (key) {
    judge_by_given_key(read->note, *key, outcome);
  } else {
    outcome.not_shown.emplace_back(
        "who signed the note: give the verifier key, from paper or the workshop, as --key");
  }
  outcome.not_shown.emplace_back("whether the entry was corrected or struck out later");
  outcome.not_shown.emplace_back(kNotTruth);
  return outcome;
}

}  // namespace benchwarden::workshop
