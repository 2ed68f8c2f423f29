#pragma once

#include <cstdint>
#include <string_view>

namespace benchwarden::tallies {

/// A text that a book says over and over: the kind of an entry, the packed fields of a drain like
/// the last hundred. Each is kept once, for as long as the program runs, and is its number here, so
/// that a million records do not hold a million copies, nor a million pointers.
class SharedText {
 public:
  SharedText() = default;  ///< the empty one
  explicit SharedText(std::string_view text);
  operator std::string_view() const;
  /// The same for equal texts, in one run of the program.
  [[nodiscard]] std::uint32_t number() const { return number_; }

  friend bool operator==(SharedText a, SharedText b) { return a.number_ == b.number_; }
  friend bool operator==(SharedText a, std::string_view b) { return std::string_view(a) == b; }

 private:
  std::uint32_t number_ = 0;
};

}  // namespace benchwarden::tallies
