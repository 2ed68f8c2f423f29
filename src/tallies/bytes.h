#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>

namespace benchwarden::tallies {

/// Writes the inside of a snapshot: whole numbers as little-endian groups of seven bits, low
/// groups first (LEB128), texts as their length and bytes.
class ByteWriter {
 public:
  void number(std::uint64_t value);
  /// Small magnitudes of either sign stay short (0, -1, 1, -2 … are written as 0, 1, 2, 3 …).
  void signed_number(std::int64_t value);
  void text(std::string_view value);
  [[nodiscard]] const std::string& bytes() const { return bytes_; }
  /// What was written; the writer has it no more.
  std::string take() { return std::move(bytes_); }

 private:
  std::string bytes_;
};

/// Reads what ByteWriter wrote and trusts none of it. The first fault sticks: from then on every
/// read gives 0 or "", and `failed()` says so once at the end.
class ByteReader {
 public:
  explicit ByteReader(std::string_view bytes) : rest_(bytes) {}
  std::uint64_t number();
  /// A number that must not be above `highest`.
  std::uint64_t number_up_to(std::uint64_t highest);
  std::int64_t signed_number();
  /// A signed number whose magnitude must not be above `highest`.
  std::int64_t signed_number_within(std::int64_t highest);
  std::string text() { return std::string(view()); }
  /// A text where it stands: valid as long as the bytes are.
  std::string_view view();
  /// How many items follow. Each takes at least one byte, so a count above what is left is a
  /// fault, and nobody reserves memory for it.
  std::size_t count();
  void fail() { failed_ = true; }
  [[nodiscard]] bool failed() const { return failed_; }
  [[nodiscard]] bool at_end() const { return rest_.empty(); }

 private:
  std::string_view rest_;
  bool failed_ = false;
};

}  // namespace benchwarden::tallies
