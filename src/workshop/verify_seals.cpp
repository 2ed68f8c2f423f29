#include "workshop/verify_seals.h"

#include <algorithm>
#include <set>
#include <utility>

#include "base/decimal.h"
#include "base/text.h"
#include "base/timestamp.h"
#include "entries/field_value.h"
#include "workshop/sealing.h"

namespace benchwarden::workshop {
namespace {

/// Why it does not hold; nothing where it does.
std::optional<std::string> fault_of(const book::KeptCheckpoint& kept,
                                    const std::optional<base::Sha256Digest>& root,
                                    const std::string& origin) {
  const auto read = read_signed_checkpoint(kept.note);
  if (!read) return read.error().detail;
  const auto key = seal::parse_verifier_key(kept.verifier_key);
  if (!key) return key.error().detail;
  if (key->name != origin || read->checkpoint.origin != origin) {
    return "it is one of " + read->checkpoint.origin + ", and this book is " + origin;
  }
  const auto holds = seal::check_signed(read->note, *key);
  if (!holds) return holds.error().detail;
  if (read->checkpoint.size != kept.size) return "it stands under a size it does not say";
  if (!root) return "the book has no " + std::to_string(kept.size) + " entries";
  if (read->checkpoint.root == *root) return std::nullopt;
  return "the first " + std::to_string(kept.size) + " entries are not those that were signed";
}

/// They are counted from 1 on.
std::optional<std::string> missing_number(const std::vector<book::KeptCheckpoint>& kept) {
  for (std::size_t i = 0; i < kept.size(); ++i) {
    if (kept[i].number != i + 1) return "checkpoint " + std::to_string(i + 1) + " is missing";
  }
  return std::nullopt;
}

/// Reports whose checkpoint is not among those kept.
std::vector<std::string> missing_for(const std::vector<SignedFigures>& reports,
                                     const std::vector<book::KeptCheckpoint>& kept) {
  std::set<std::pair<std::uint64_t, std::string>> lines;
  for (const book::KeptCheckpoint& one : kept) {
    const auto read = read_signed_checkpoint(one.note);
    if (!read) continue;
    for (const std::string& line : read->checkpoint.extensions) {
      lines.emplace(read->checkpoint.size, line);
    }
  }
  std::vector<std::string> faults;
  for (const SignedFigures& report : reports) {
    if (lines.contains({report.book_size, "figures " + report.digest})) continue;
    faults.push_back("entry " + std::to_string(report.entry) +
                     ": the checkpoint that signed the figures of its report is missing");
  }
  return faults;
}

/// Where the key is not that of the checkpoint before.
std::vector<std::string> changes_of_key(const std::vector<book::KeptCheckpoint>& kept) {
  std::vector<std::string> notes;
  for (std::size_t i = 1; i < kept.size(); ++i) {
    if (kept[i].verifier_key == kept[i - 1].verifier_key) continue;
    notes.push_back("note: from checkpoint " + std::to_string(kept[i].number) + " of " +
                    base::format_rfc3339_utc(kept[i].signed_at) +
                    " on another key signs: " + kept[i].verifier_key);
  }
  return notes;
}

std::string reach_of(const std::vector<book::KeptCheckpoint>& kept, std::uint64_t book_size) {
  if (kept.empty()) return "no signed checkpoint lies here";
  const auto last = std::max_element(kept.begin(), kept.end(), [](const auto& a, const auto& b) {
    return std::pair(a.size, a.number) < std::pair(b.size, b.number);
  });
  std::string text = "signed checkpoints: " + std::to_string(kept.size()) + "; the last of " +
                     std::to_string(last->size) + " entries by " + last->verifier_key;
  if (book_size > last->size) {
    const std::uint64_t more = book_size - last->size;
    text += more == 1 ? "; the one entry after it is not signed"
                      : "; the " + std::to_string(more) + " entries after it are not signed";
  }
  return text;
}

}  // namespace

base::Result<SignedCheckpoint> read_signed_checkpoint(std::string_view bytes) {
  auto note = seal::parse_note(bytes);
  if (!note) return note.error();
  auto checkpoint = seal::parse_checkpoint(note->text);
  if (!checkpoint) return checkpoint.error();
  return SignedCheckpoint{*std::move(note), *std::move(checkpoint)};
}

std::optional<SignedFigures> signed_figures_of(const entries::Entry& entry) {
  const auto& content = entry.content;
  const auto* digest = entries::find_field_as<entries::Text>(content.fields, "figures_digest");
  const auto* size = entries::find_field_as<quantities::Quantity>(content.fields, "book_size");
  const bool is_report = content.kind == "report-issued" && !content.corrects;
  if (!is_report || digest == nullptr || size == nullptr) return std::nullopt;
  return SignedFigures{entry.seq, base::whole_number(base::format_decimal(size->value)).value_or(0),
                       digest->text};
}

SealsFound check_seals(const book::CheckpointedTree& tree, std::uint64_t book_size,
                       const std::vector<SignedFigures>& reports) {
  SealsFound found;
  if (auto fault = missing_number(tree.kept)) found.faults.push_back(*std::move(fault));
  const std::string origin = book_origin(tree.first_leaf.value_or(base::Sha256Digest{}));
  for (std::size_t i = 0; i < tree.kept.size(); ++i) {
    const auto fault = fault_of(tree.kept[i], tree.roots[i], origin);
    if (!fault) continue;
    found.faults.push_back("checkpoint " + std::to_string(tree.kept[i].number) + ": " + *fault);
  }
  for (std::string& fault : missing_for(reports, tree.kept)) {
    found.faults.push_back(std::move(fault));
  }
  found.notes = changes_of_key(tree.kept);
  found.notes.push_back(reach_of(tree.kept, book_size));
  return found;
}

}  // namespace benchwarden::workshop
