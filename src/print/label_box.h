#pragma once

#include <vector>

#include "base/result.h"
#include "document/label.h"
#include "print/typesetter.h"

namespace benchwarden::print {

/// The paper of one label.
struct LabelBox {
  Mpt width = 0;
  Mpt height = 0;  ///< 0: as long as needed
};

/// A label as it is printed, its margin included.
struct LaidLabel {
  Mpt height = 0;
  std::vector<Draw> draws;
  std::vector<std::size_t> if_room;  ///< which of what may be left out stands on it
};

/// Lays out a label: as large as it fits. kInvalid, in words that go on after "it": it does not fit
/// at the smallest type allowed, or the paper is smaller than what it is stuck on asks for.
base::Result<LaidLabel> lay_out_label(const document::Label& label, const LabelBox& box,
                                      const Layout& layout, const FontMetrics& font);

}  // namespace benchwarden::print
