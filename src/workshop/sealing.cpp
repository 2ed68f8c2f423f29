#include "workshop/sealing.h"

#include <algorithm>
#include <utility>

#include "base/sha256.h"
#include "book/check_proofs.h"
#include "seal/checkpoint.h"
#include "seal/note.h"

namespace benchwarden::workshop {
namespace {

base::Error not_signed(const std::string& why) {
  return {base::ErrorCode::kDamaged, "nothing was signed: " + why};
}

/// Whether one of the two trees is the beginning of the other.
base::Status<> check_same_course(const book::Book& book, book::TreeHead one, book::TreeHead other) {
  if (one.size > other.size) std::swap(one, other);
  const auto shown = book.consistency(one.size, other.size);
  if (!shown) return not_signed(shown.error().detail);
  if (book::proves_consistency(one, other, shown->path)) return base::Done{};
  return not_signed("the book does not go on from the checkpoint of " + std::to_string(one.size) +
                    " entries; run verify");
}

base::Status<> check_goes_on(const Ports& ports, const book::TreeHead& head,
                             const std::string& origin) {
  const auto last = ports.book.last_checkpoint();
  if (!last) return last.error();
  if (!*last) return base::Done{};
  const auto note = seal::parse_note((*last)->note);
  if (!note) return not_signed("the last checkpoint is " + note.error().detail);
  const auto checkpoint = seal::parse_checkpoint(note->text);
  if (!checkpoint) return not_signed("the last checkpoint is " + checkpoint.error().detail);
  if (checkpoint->origin != origin) {
    return not_signed("the last checkpoint is one of " + checkpoint->origin + ", not of " + origin);
  }
  return check_same_course(ports.book, {checkpoint->size, checkpoint->root}, head);
}

}  // namespace

std::string book_origin(const base::Sha256Digest& first_leaf_hash) {
  constexpr std::size_t kDigits = 16;
  return "benchwarden/book/" + base::to_hex(first_leaf_hash).substr(0, kDigits);
}

base::Result<SealedHead> seal_head(const Ports& ports, const book::TreeHead& head,
                                   const std::vector<std::string>& lines) {
  if (ports.signing_key == nullptr) {
    return base::Error{base::ErrorCode::kUnavailable, "no signing key is open"};
  }
  const auto first = ports.book.leaf_hash(1);
  if (!first) return first.error();
  const std::string origin = book_origin(*first);
  auto goes_on = check_goes_on(ports, head, origin);
  if (!goes_on) return goes_on.error();
  const seal::Checkpoint checkpoint{origin, head.size, head.root, lines};
  SealedHead sealed{seal::write_note(seal::sign_note(seal::write_checkpoint(checkpoint), origin,
                                                     *ports.signing_key)),
                    seal::verifier_key_text({origin, ports.signing_key->public_key()})};
  const auto kept = ports.book.keep_checkpoint(
      {0, head.size, ports.clock.now(), sealed.verifier_key, sealed.note});
  if (!kept) return kept.error();
  return sealed;
}

base::Status<> seal_book(const Ports& ports) {
  const auto sealed = seal_head(ports, ports.book.head(), {});
  if (!sealed) return sealed.error();
  return base::Done{};
}

base::Status<> seal_book_daily(const Ports& ports) {
  const std::uint64_t size = ports.book.head().size;
  if (size == 0) return base::Done{};
  const auto last = ports.book.last_checkpoint();
  if (!last) return last.error();
  const base::Zone zone = zone_of(*ports.live.view());
  const bool is_due = !*last || ((*last)->size < size && zone.date_of((*last)->signed_at) !=
                                                             zone.date_of(ports.clock.now()));
  return is_due ? seal_book(ports) : base::Done{};
}

}  // namespace benchwarden::workshop
