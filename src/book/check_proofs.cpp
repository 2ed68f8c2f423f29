#include "book/check_proofs.h"

#include <bit>

#include "book/book.h"

namespace benchwarden::book {

// The names are those of the RFC: fn and sn count the node and the last node of a level.

bool proves_inclusion(std::uint64_t seq, const base::Sha256Digest& leaf_hash, const TreeHead& head,
                      const ProofPath& path) {
  if (seq < 1 || seq > head.size) return false;
  std::uint64_t fn = seq - 1;
  std::uint64_t sn = head.size - 1;
  base::Sha256Digest r = leaf_hash;
  for (const base::Sha256Digest& p : path) {
    if (sn == 0) return false;
    if ((fn & 1U) != 0 || fn == sn) {
      r = hash_node(p, r);
      while ((fn & 1U) == 0 && fn != 0) {
        fn >>= 1U;
        sn >>= 1U;
      }
    } else {
      r = hash_node(r, p);
    }
    fn >>= 1U;
    sn >>= 1U;
  }
  return sn == 0 && r == head.root;
}

bool proves_consistency(const TreeHead& from, const TreeHead& to, const ProofPath& path) {
  if (from.size == to.size) return path.empty() && from.root == to.root;
  if (from.size < 1 || from.size > to.size || path.empty()) return false;
  const bool has_subtree = std::has_single_bit(from.size);
  std::uint64_t fn = from.size - 1;
  std::uint64_t sn = to.size - 1;
  const int shift = std::countr_one(fn);
  fn >>= shift;
  sn >>= shift;
  base::Sha256Digest fr = has_subtree ? from.root : path.front();
  base::Sha256Digest sr = fr;
  for (auto c = path.begin() + (has_subtree ? 0 : 1); c != path.end(); ++c) {
    if (sn == 0) return false;
    if ((fn & 1U) != 0 || fn == sn) {
      fr = hash_node(*c, fr);
      sr = hash_node(*c, sr);
      while ((fn & 1U) == 0 && fn != 0) {
        fn >>= 1U;
        sn >>= 1U;
      }
    } else {
      sr = hash_node(sr, *c);
    }
    fn >>= 1U;
    sn >>= 1U;
  }
  return sn == 0 && fr == from.root && sr == to.root;
}

}  // namespace benchwarden::book
