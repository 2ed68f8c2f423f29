#include "tallies/claims.h"

#include "tallies/bytes.h"

namespace benchwarden::tallies {

using entries::Authorship;

void Claims::answer(std::uint64_t by, const entries::Confirms& confirms) {
  for (const std::uint64_t seq : confirms.entries) {
    if (open_.erase(seq) > 0) answered_.emplace(seq, Answer{by, confirms.authorship});
  }
}

void Claims::withdraw(std::uint64_t by, const entries::Confirms& confirms) {
  for (const std::uint64_t seq : confirms.entries) {
    const auto found = answered_.find(seq);
    if (found == answered_.end() || found->second.by != by) continue;
    answered_.erase(found);
    open_.insert(seq);
  }
}

const Answer* Claims::answer_for(std::uint64_t seq) const {
  const auto found = answered_.find(seq);
  return found == answered_.end() ? nullptr : &found->second;
}

void Claims::write(ByteWriter& writer) const {
  writer.number(open_.size());
  for (const std::uint64_t seq : open_) writer.number(seq);
  writer.number(answered_.size());
  for (const auto& [seq, answer] : answered_) {
    writer.number(seq);
    writer.number(answer.by);
    writer.number(static_cast<std::uint64_t>(answer.authorship));
  }
}

Claims Claims::read(ByteReader& reader) {
  Claims claims;
  const std::size_t open = reader.count();
  for (std::size_t i = 0; i < open && !reader.failed(); ++i) {
    const std::uint64_t seq = reader.number();
    if (!claims.open_.empty() && seq <= *claims.open_.rbegin()) reader.fail();
    claims.open_.insert(claims.open_.end(), seq);
  }
  const std::size_t answered = reader.count();
  for (std::size_t i = 0; i < answered && !reader.failed(); ++i) {
    const std::uint64_t seq = reader.number();
    Answer answer;
    answer.by = reader.number();
    answer.authorship = static_cast<Authorship>(
        reader.number_up_to(static_cast<std::uint64_t>(Authorship::kNotMine)));
    const bool ascends = claims.answered_.empty() || claims.answered_.rbegin()->first < seq;
    if (!ascends || claims.is_open(seq)) reader.fail();
    claims.answered_.emplace_hint(claims.answered_.end(), seq, answer);
  }
  return claims;
}

}  // namespace benchwarden::tallies
