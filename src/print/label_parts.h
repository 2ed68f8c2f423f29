#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "document/label.h"
#include "print/typesetter.h"

namespace benchwarden::print {

/// Sizes of type on one label, and the side of its pictograms.
struct LabelSizes {
  Mpt words = 0;
  Mpt words_least = 0;
  Mpt name = 0;
  Mpt id = 0;
  Mpt text = 0;
  Mpt pictogram = 0;
  std::vector<std::size_t> if_room = {};  ///< which of what may be left out
};

/// The QR code of a label, ready to be drawn.
struct LabelCode {
  std::vector<std::string> rows;
  Mpt module = 0;
  [[nodiscard]] Mpt side() const { return static_cast<Mpt>(rows.size()) * module; }
};

/// How high one part of a label is; its name is for faults.
struct PartHeight {
  std::string_view name;
  Mpt height = 0;
};

/// What is read first to last, from the top, and what stands at the lower edge: code, id, foot.
struct LabelParts {
  Band top;
  Band bottom;
  std::vector<PartHeight> heights;
  bool word_too_wide = false;  ///< of the words that come first: they are never broken
};

/// The parts of a label on paper of that width (`type`: without its margins), in those sizes.
LabelParts label_parts(const document::Label& label, const LabelCode& code, const LabelSizes& sizes,
                       const Typesetter& type);

}  // namespace benchwarden::print
