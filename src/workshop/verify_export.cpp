#include "workshop/verify_export.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <utility>

#include "base/sha256.h"
#include "base/text.h"
#include "book/merkle.h"
#include "workshop/check_tables.h"
#include "workshop/export_checkpoints.h"
#include "workshop/proof_views.h"
#include "workshop/verify_seals.h"

namespace benchwarden::workshop {
namespace {

/// None where the file is missing: nothing was signed when the export was made.
base::Result<std::vector<book::KeptCheckpoint>> exported_checkpoints(
    const std::filesystem::path& folder) {
  const auto text = book::read_exported(folder / book::kExportedCheckpoints);
  if (!text && text.error().code == base::ErrorCode::kNotFound) {
    return std::vector<book::KeptCheckpoint>();
  }
  if (!text) return text.error();
  return read_checkpoint_lines(*text);
}

/// The roots a tree has at some sizes, taken down while it grows.
class RootsAt {
 public:
  explicit RootsAt(const std::vector<book::KeptCheckpoint>& checkpoints) {
    for (const book::KeptCheckpoint& one : checkpoints) wanted_.insert(one.size);
  }
  void look(const book::TreeEdge& edge) {
    if (edge.size() == 1) first_leaf_ = edge.root();
    if (wanted_.contains(edge.size())) roots_[edge.size()] = edge.root();
  }
  [[nodiscard]] book::CheckpointedTree tree(std::vector<book::KeptCheckpoint> kept) const {
    book::CheckpointedTree tree{first_leaf_, std::move(kept), {}};
    for (const book::KeptCheckpoint& one : tree.kept) {
      const auto found = roots_.find(one.size);
      tree.roots.push_back(found == roots_.end() ? std::nullopt : std::optional(found->second));
    }
    return tree;
  }

 private:
  std::set<std::uint64_t> wanted_;
  std::map<std::uint64_t, base::Sha256Digest> roots_;
  std::optional<base::Sha256Digest> first_leaf_;
};

/// One export, held to its entries and its signatures.
class ExportCheck {
 public:
  ExportCheck(const std::filesystem::path& folder, const Definitions& definitions)
      : folder_(folder),
        definitions_(definitions),
        kept_(exported_checkpoints(folder)),
        roots_(kept_ ? *kept_ : std::vector<book::KeptCheckpoint>()),
        tables_(folder, definitions.catalog) {}

  base::Result<SealedExport, book::ExportFaults> run() {
    auto checked = book::check_export(
        folder_, definitions_.catalog,
        [&](const book::TreeEdge& edge, const entries::Entry* entry) { look(edge, entry); });
    tables_.finish();
    if (!checked) faults_ = checked.error();
    faults_.insert(faults_.end(), tables_.faults().begin(), tables_.faults().end());
    if (checked) check_head_file(checked->head);
    std::vector<std::string> notes = tables_.notes();
    const SealsFound seals = checked_seals(checked ? checked->head.size : 0);
    notes.insert(notes.end(), seals.notes.begin(), seals.notes.end());
    if (!faults_.empty()) return std::move(faults_);
    notes.push_back(what_is_held(*checked));
    return SealedExport{*std::move(checked), *std::move(kept_), std::move(notes)};
  }

 private:
  void look(const book::TreeEdge& edge, const entries::Entry* entry) {
    roots_.look(edge);
    if (entry == nullptr) return;
    tables_.take(*entry);
    if (auto report = signed_figures_of(*entry)) reports_.push_back(*std::move(report));
  }

  /// Of a file beside those that are read: it must hold just this.
  void check_is(std::string_view name, const std::optional<std::string>& bytes,
                const std::string& of_what) {
    const auto found = book::read_exported(folder_ / name);
    if (!found && found.error().code == base::ErrorCode::kNotFound) return;  // digests.txt knows
    if (found && bytes && *found == *bytes) {
      held_.insert(std::string(name));
    } else {
      faults_.push_back(std::string(name) + ": is not that of " + of_what);
    }
  }

  void check_head_file(const book::TreeHead& head) {
    check_is(book::kExportedCheckpoint, base::write_json(checkpoint_json(head)) + "\n",
             "the entries");
  }

  SealsFound checked_seals(std::uint64_t size) {
    const std::string place(book::kExportedCheckpoints);
    if (!kept_) {
      faults_.push_back(place + ":" + kept_.error().detail);
      return {};
    }
    const SealsFound seals = check_seals(roots_.tree(*kept_), size, reports_);
    for (const std::string& fault : seals.faults) faults_.push_back(place + ": " + fault);
    const bool none = kept_->empty();
    check_is(book::kExportedNote, none ? std::nullopt : std::optional(kept_->back().note),
             "the last of " + place);
    check_is(book::kExportedKey,
             none ? std::nullopt : std::optional(kept_->back().verifier_key + "\n"),
             "the last of " + place);
    return seals;
  }

  /// What the files say beside the entries is only as good as what they were held to.
  std::string what_is_held(const book::CheckedExport& checked) {
    for (const std::string_view name :
         {book::kExportedEntries, book::kExportedHead, book::kExportedCheckpoints}) {
      held_.insert(std::string(name));
    }
    held_.insert(tables_.held().begin(), tables_.held().end());
    for (const std::string& name : checked.attachments) {
      held_.insert(std::string(book::kExportedAttachments) + "/" + name);
    }
    std::vector<std::string> rest;
    std::set_difference(checked.files.begin(), checked.files.end(), held_.begin(), held_.end(),
                        std::back_inserter(rest));
    if (rest.empty()) return "every file is held to the entries";
    return "held to digests.txt alone, which whoever changes a file can write anew: " +
           base::join(rest, ", ") + "; every other file is held to the entries";
  }

  const std::filesystem::path& folder_;
  const Definitions& definitions_;
  base::Result<std::vector<book::KeptCheckpoint>> kept_;
  RootsAt roots_;
  TableChecks tables_;
  std::vector<SignedFigures> reports_;
  std::set<std::string> held_;
  book::ExportFaults faults_;
};

/// Says whether the key that was given signed the export, and how far.
void judge_by_key(const SealedExport& sealed, const seal::VerifierKey& key, Verified& verified) {
  std::uint64_t reach = 0;
  for (const book::KeptCheckpoint& kept : sealed.checkpoints) {
    const auto read = read_signed_checkpoint(kept.note);
    if (read && seal::check_signed(read->note, key)) reach = std::max(reach, kept.size);
  }
  if (reach == 0) {
    verified.faults.emplace_back("no checkpoint in it is signed by the key you gave");
  } else {
    verified.notes.push_back("the key you gave signed the first " + std::to_string(reach) +
                             " of its " + std::to_string(sealed.book.head.size) + " entries");
  }
}

}  // namespace

base::Result<SealedExport, book::ExportFaults> check_sealed_export(
    const std::filesystem::path& folder, const Definitions& definitions) {
  return ExportCheck(folder, definitions).run();
}

Verified verify_export(const std::filesystem::path& folder, const Definitions& definitions,
                       const std::optional<seal::VerifierKey>& key) {
  const auto checked = check_sealed_export(folder, definitions);
  if (!checked) return Verified{{}, checked.error(), {}};
  Verified verified{checked->book.head, {}, checked->notes};
  if (key) judge_by_key(*checked, *key, verified);
  return verified;
}

}  // namespace benchwarden::workshop
