#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "tallies/bytes.h"
#include "tallies/shared_text.h"

namespace benchwarden::tallies {

/// The texts that the records of a snapshot share, each written once, in order of their first use.
class WrittenTexts {
 public:
  void add(SharedText text);
  void write(ByteWriter& writer) const;
  /// Where a text that was added stands.
  [[nodiscard]] std::uint32_t place(SharedText text) const { return places_[text.number()]; }

 private:
  std::vector<SharedText> texts_;
  std::vector<std::uint32_t> places_;  ///< by the number of the text
};

/// The same, read: each text is looked up once, not once for each record.
class ReadTexts {
 public:
  /// Fails the reader where a text stands there twice.
  explicit ReadTexts(ByteReader& reader);
  [[nodiscard]] const std::vector<SharedText>& all() const { return texts_; }
  /// The text at the place that is written next. Fails the reader on one that is not there, or
  /// whose turn it is not.
  SharedText next(ByteReader& reader);
  /// Whether each has been asked for.
  [[nodiscard]] bool all_used() const { return used_ == texts_.size(); }

 private:
  std::vector<SharedText> texts_;
  std::size_t used_ = 0;
};

}  // namespace benchwarden::tallies
