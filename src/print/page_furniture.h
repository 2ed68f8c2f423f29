#pragma once

#include <vector>

#include "document/document.h"
#include "print/typesetter.h"

namespace benchwarden::print {

/// What stands above and below the text of every page: the mark of a document that is not for
/// issue, and the foot lines.
class PageFurniture {
 public:
  /// `signs_missing`: how many signs of the text could not be printed.
  PageFurniture(const document::Document& document, const Typesetter& type,
                std::size_t signs_missing);

  [[nodiscard]] Mpt head_height() const { return head_height_; }  ///< 0 without a mark
  [[nodiscard]] Mpt foot_height() const { return foot_height_; }
  [[nodiscard]] std::vector<Draw> head() const;
  /// Relative to the top of the foot.
  [[nodiscard]] std::vector<Draw> foot(std::size_t page, std::size_t pages) const;

 private:
  const Typesetter& type_;
  std::string page_of_;
  std::vector<std::string> mark_lines_;
  std::vector<std::string> foot_lines_;
  Mpt head_height_ = 0;
  Mpt foot_height_ = 0;
};

}  // namespace benchwarden::print
