#include "workshop/proof_views.h"

#include <utility>

#include "base/base64.h"
#include "base/sha256.h"
#include "book/merkle.h"

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

base::Json show_checkpoint(const Ports& ports) { return checkpoint_json(ports.book.head()); }

base::Json checkpoint_json(const book::TreeHead& head) {
  return base::JsonObject{{"size", head.size}, {"root", hash_text(head.root)}};
}

}  // namespace benchwarden::workshop
