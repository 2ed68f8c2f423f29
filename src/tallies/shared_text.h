#pragma once

#include <string>
#include <string_view>

namespace benchwarden::tallies {

/// A text that a book says over and over: the kind of an entry, the packed fields of a drain like
/// the last hundred. Each is kept once, for as long as the program runs, so that a million records
/// do not hold a million copies.
class SharedText {
 public:
  SharedText() : SharedText(std::string_view()) {}
  explicit SharedText(std::string_view text);
  operator std::string_view() const { return *text_; }

  friend bool operator==(SharedText a, SharedText b) { return a.text_ == b.text_; }
  friend bool operator==(SharedText a, std::string_view b) { return *a.text_ == b; }

 private:
  const std::string* text_;
};

}  // namespace benchwarden::tallies
