#include "workshop/verify_claims.h"

#include <algorithm>
#include <utility>

#include "base/sha256.h"
#include "book/check_proofs.h"
#include "book/merkle.h"
#include "book/read_book.h"
#include "seal/tlog_proof.h"
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

/// Of the keys the book names, the one the note says it is signed with.
std::optional<seal::VerifierKey> key_in_book(const book::CheckpointedTree& tree,
                                             const seal::Note& note) {
  for (const book::KeptCheckpoint& kept : tree.kept) {
    auto key = seal::parse_verifier_key(kept.verifier_key);
    if (key && seal::check_signed(note, *key)) return *std::move(key);
  }
  return std::nullopt;
}

/// Says of a note whether it is signed, and by a key that came from where.
void judge_signature(const seal::Note& note, const std::optional<seal::VerifierKey>& given,
                     const std::optional<seal::VerifierKey>& own, Shown& outcome) {
  if (given) {
    const auto holds = seal::check_signed(note, *given);
    if (holds) {
      outcome.shown.push_back("it is signed by the key you gave");
    } else {
      outcome.faults.push_back(holds.error().detail);
    }
  } else if (own) {
    outcome.shown.push_back("it is signed by a key this book names as its own: " +
                            seal::verifier_key_text(*own));
    outcome.not_shown.emplace_back(
        "whether that key is the workshop's: hold it to the one on old paper, or give it as --key");
  } else {
    outcome.not_shown.emplace_back(
        "who signed it: none of the keys this book names did. A book made anew has another key; "
        "hold the verifier key to the one on old paper, and give it as --key");
  }
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
  const auto root = book::stored_root(folder, head.size);
  if (!root) return root.error();
  if (!*root) {
    outcome->faults.push_back("the book of today ends before entry " + std::to_string(head.size));
  } else if (**root != head.root) {
    outcome->faults.push_back(entries_text(head.size) +
                              " are NOT those of this root; today they "
                              "give " +
                              base::to_hex(**root));
  } else {
    outcome->shown.push_back(entries_text(head.size) +
                             " are, unchanged and in their order, those of the root given");
  }
  if (read) judge_signature(read->note, claimed.key, key_in_book(*tree, read->note), *outcome);
  outcome->not_shown.emplace_back(kNotTruth);
  return outcome;
}

base::Result<Shown> verify_report_file(const std::filesystem::path& folder,
                                       const Definitions& definitions, std::string_view bytes) {
  auto outcome = checked_book(folder, definitions);
  if (!outcome || !outcome->faults.empty()) return outcome;
  const std::string digest = base::to_hex(base::sha256(bytes));
  auto book = book::ReadBook::open(folder, definitions.catalog);
  if (!book) return book.error();
  std::vector<std::string> found;
  const auto read = book->each([&](const entries::Entry& entry) -> base::Status<> {
    const auto& content = entry.content;
    const auto* said = entries::find_field_as<entries::Text>(content.fields, "report_digest");
    if (content.kind != "report-issued" || said == nullptr || said->text != digest) {
      return base::Done{};
    }
    found.push_back("this very file was issued as entry " + std::to_string(entry.seq) + " (" +
                    base::format_uuid(content.id) + ") at " +
                    base::format_rfc3339_utc(entry.recorded_at) + " by " + entry.signature.person);
    return base::Done{};
  });
  if (!read) return read.error();
  if (found.empty()) {
    outcome->faults.push_back("no entry says that this file was issued: SHA-256 " + digest);
  }
  outcome->shown.insert(outcome->shown.end(), found.begin(), found.end());
  outcome->not_shown.emplace_back(kNotTruth);
  return outcome;
}

base::Result<Shown> verify_entry_proof(std::string_view bytes,
                                       const std::optional<seal::VerifierKey>& key) {
  const auto proof = seal::parse_tlog_proof(bytes);
  if (!proof) return proof.error();
  const auto read = read_signed_checkpoint(proof->note);
  if (!read) return read.error();
  Shown outcome;
  const book::TreeHead head{read->checkpoint.size, read->checkpoint.root};
  const std::uint64_t seq = proof->index + 1;
  if (book::proves_inclusion(seq, book::hash_leaf(proof->extra), head, proof->path)) {
    outcome.shown.push_back("what stands behind 'extra' is entry " + std::to_string(seq) +
                            " of the book " + read->checkpoint.origin + " as it was with " +
                            std::to_string(head.size) + " entries: " + proof->extra);
  } else {
    outcome.faults.emplace_back("the hashes do not lead from this entry to the root of the note");
  }
  if (key) {
    judge_signature(read->note, key, std::nullopt, outcome);
  } else {
    outcome.not_shown.emplace_back(
        "who signed the note: give the verifier key, from paper or the workshop, as --key");
  }
  outcome.not_shown.emplace_back("whether the entry was corrected or struck out later");
  outcome.not_shown.emplace_back(kNotTruth);
  return outcome;
}

}  // namespace benchwarden::workshop
