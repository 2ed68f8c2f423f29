#include "workshop/verify_export.h"

#include <map>
#include <set>
#include <utility>

#include "base/sha256.h"
#include "book/merkle.h"
#include "workshop/export_checkpoints.h"
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

}  // namespace

base::Result<SealedExport, book::ExportFaults> check_sealed_export(
    const std::filesystem::path& folder, const Definitions& definitions) {
  const auto kept = exported_checkpoints(folder);
  RootsAt roots(kept ? *kept : std::vector<book::KeptCheckpoint>());
  auto checked = book::check_export(folder, definitions.catalog,
                                    [&](const book::TreeEdge& edge) { roots.look(edge); });
  book::ExportFaults faults = checked ? book::ExportFaults() : checked.error();
  if (!kept) {
    faults.push_back(std::string(book::kExportedCheckpoints) + ":" + kept.error().detail);
    return faults;
  }
  SealsFound seals = check_seals(roots.tree(*kept), checked ? checked->head.size : 0);
  for (const std::string& fault : seals.faults) {
    faults.push_back(std::string(book::kExportedCheckpoints) + ": " + fault);
  }
  if (!faults.empty()) return faults;
  return SealedExport{*std::move(checked), *kept, std::move(seals.notes)};
}

Verified verify_export(const std::filesystem::path& folder, const Definitions& definitions) {
  const auto checked = check_sealed_export(folder, definitions);
  if (!checked) return Verified{{}, checked.error(), {}};
  return Verified{checked->book.head, {}, checked->notes};
}

}  // namespace benchwarden::workshop
