#include "workshop/proof_views.h"

#include <utility>

#include "base/base64.h"
#include "base/sha256.h"
#include "book/merkle.h"
#include "seal/tlog_proof.h"
#include "workshop/export_checkpoints.h"

namespace benchwarden::workshop {
namespace {

std::string hash_text(const base::Sha256Digest& hash) {
  return base::to_base64(base::as_bytes(hash));
}

base::JsonArray path_json(const std::vector<base::Sha256Digest>& path) {
  base::JsonArray json;
  for (const base::Sha256Digest& hash : path) json.emplace_back(hash_text(hash));
  return json;
}

}  // namespace

base::Result<base::Json> show_inclusion(const Ports& ports, const base::Uuid& id,
                                        std::optional<std::uint64_t> size) {
  const auto entry = ports.book.entry(id);
  if (!entry) return entry.error();
  const auto shown = ports.book.inclusion(entry->seq, size.value_or(ports.book.head().size));
  if (!shown) return shown.error();
  return base::Json(base::JsonObject{{"seq", entry->seq},
                                     {"leaf", shown->leaf},
                                     {"leaf_hash", base::to_hex(book::hash_leaf(shown->leaf))},
                                     {"size", shown->head.size},
                                     {"root", hash_text(shown->head.root)},
                                     {"path", path_json(shown->path)}});
}

base::Result<base::Json> show_consistency(const Ports& ports, std::uint64_t from,
                                          std::optional<std::uint64_t> to) {
  const auto shown = ports.book.consistency(from, to.value_or(ports.book.head().size));
  if (!shown) return shown.error();
  return base::Json(base::JsonObject{{"from", shown->from.size},
                                     {"from_root", hash_text(shown->from.root)},
                                     {"to", shown->to.size},
                                     {"to_root", hash_text(shown->to.root)},
                                     {"path", path_json(shown->path)}});
}

base::Json checkpoint_json(const book::TreeHead& head) {
  return base::JsonObject{{"size", head.size}, {"root", hash_text(head.root)}};
}

base::Result<base::Json> show_checkpoint(const Ports& ports) {
  const auto last = ports.book.last_checkpoint();
  if (!last) return last.error();
  const book::TreeHead head = ports.book.head();
  return base::Json(base::JsonObject{
      {"size", head.size},
      {"root", hash_text(head.root)},
      {"signed", *last ? base::Json(kept_checkpoint_json(**last)) : base::Json(nullptr)}});
}

base::Result<base::Json> list_checkpoints(const Ports& ports, std::uint64_t after_number,
                                          std::size_t limit) {
  const auto kept = ports.book.checkpoints(after_number, limit);
  if (!kept) return kept.error();
  base::JsonArray list;
  for (const book::KeptCheckpoint& one : *kept) list.emplace_back(kept_checkpoint_json(one));
  base::Json next;
  if (kept->size() == limit) next = kept->back().number;
  return base::Json(
      base::JsonObject{{"checkpoints", std::move(list)}, {"next_after", std::move(next)}});
}

base::Result<ProofFile> proof_file(const Ports& ports, const base::Uuid& id) {
  const auto entry = ports.book.entry(id);
  if (!entry) return entry.error();
  const auto last = ports.book.last_checkpoint();
  if (!last) return last.error();
  if (!*last || (*last)->size < entry->seq) {
    return base::Error{base::ErrorCode::kNotFound,
                       "entry " + std::to_string(entry->seq) +
                           " is under no signed checkpoint yet; one is signed each day"};
  }
  const auto shown = ports.book.inclusion(entry->seq, (*last)->size);
  if (!shown) return shown.error();
  return ProofFile{
      seal::write_tlog_proof({shown->leaf, entry->seq - 1, shown->path, (*last)->note}),
      entry->seq};
}

}  // namespace benchwarden::workshop
