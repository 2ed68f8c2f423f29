#include "tallies/text_table.h"

#include <limits>
#include <unordered_set>

namespace benchwarden::tallies {

void WrittenTexts::add(SharedText text) {
  constexpr std::uint32_t kNowhere = std::numeric_limits<std::uint32_t>::max();
  if (text.number() >= places_.size()) places_.resize(text.number() + std::size_t{1}, kNowhere);
  std::uint32_t& place = places_[text.number()];
  if (place != kNowhere) return;
  place = static_cast<std::uint32_t>(texts_.size());
  texts_.push_back(text);
}

void WrittenTexts::write(ByteWriter& writer) const {
  writer.number(texts_.size());
  for (const SharedText text : texts_) writer.text(text);
}

ReadTexts::ReadTexts(ByteReader& reader) {
  std::unordered_set<std::uint32_t> known;
  const std::size_t count = reader.count();
  for (std::size_t i = 0; i < count && !reader.failed(); ++i) {
    const SharedText text(reader.view());
    if (!known.insert(text.number()).second) reader.fail();
    texts_.push_back(text);
  }
}

SharedText ReadTexts::next(ByteReader& reader) {
  const std::uint64_t place = reader.number_up_to(used_);
  if (place == used_) ++used_;
  if (place < texts_.size()) return texts_[place];
  reader.fail();
  return {};
}

}  // namespace benchwarden::tallies
