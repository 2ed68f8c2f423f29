#include "tallies/bytes.h"

namespace benchwarden::tallies {
namespace {

constexpr unsigned kGroupBits = 7;
constexpr std::uint64_t kGroupMask = 0x7f;
constexpr std::uint64_t kMoreFollows = 0x80;
constexpr unsigned kLastShift = 63;  // the tenth group holds one bit

}  // namespace

void ByteWriter::number(std::uint64_t value) {
  while (value > kGroupMask) {
    bytes_ += static_cast<char>((value & kGroupMask) | kMoreFollows);
    value >>= kGroupBits;
  }
  bytes_ += static_cast<char>(value);
}

void ByteWriter::signed_number(std::int64_t value) {
  const auto doubled = static_cast<std::uint64_t>(value) << 1U;
  number(value < 0 ? ~doubled : doubled);
}

void ByteWriter::text(std::string_view value) {
  number(value.size());
  bytes_ += value;
}

std::uint64_t ByteReader::number() {
  std::uint64_t value = 0;
  for (unsigned shift = 0; !failed_ && shift <= kLastShift; shift += kGroupBits) {
    if (rest_.empty()) break;
    const auto group = static_cast<std::uint8_t>(rest_.front());
    rest_.remove_prefix(1);
    if (shift == kLastShift && group > 1) break;
    value |= (group & kGroupMask) << shift;
    const bool padded = group == 0 && shift > 0;
    if (padded) break;
    if ((group & kMoreFollows) == 0) return value;
  }
  failed_ = true;
  return 0;
}

std::uint64_t ByteReader::number_up_to(std::uint64_t highest) {
  const std::uint64_t value = number();
  if (value <= highest) return value;
  failed_ = true;
  return 0;
}

std::int64_t ByteReader::signed_number() {
  const std::uint64_t coded = number();
  const std::uint64_t half = coded >> 1U;
  return static_cast<std::int64_t>((coded & 1U) == 0 ? half : ~half);
}

std::int64_t ByteReader::signed_number_within(std::int64_t highest) {
  const std::int64_t value = signed_number();
  if (value <= highest && value >= -highest) return value;
  failed_ = true;
  return 0;
}

std::string_view ByteReader::view() {
  const std::uint64_t size = number();
  if (failed_ || size > rest_.size()) {
    failed_ = true;
    return {};
  }
  const std::string_view value = rest_.substr(0, size);
  rest_.remove_prefix(size);
  return value;
}

std::size_t ByteReader::count() {
  const std::uint64_t value = number();
  if (value <= rest_.size()) return value;
  failed_ = true;
  return 0;
}

}  // namespace benchwarden::tallies
