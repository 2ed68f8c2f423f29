#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "document/label.h"
#include "print/label_box.h"

namespace benchwarden::print {

/// A label on a sheet: in which of the fields a sheet is cut into, by their number.
struct SheetLabel {
  std::size_t form = 0;
  LaidLabel laid;
};

/// The smallest field of a sheet that the label fits into and that is large enough for what it is
/// stuck on. kInvalid as lay_out_label, about the largest field.
base::Result<SheetLabel> fit_on_sheet(const document::Label& label, const Layout& layout,
                                      const FontMetrics& font);

/// One sheet after the other, each of fields of one form, on paper of that height.
class SheetCutter {
 public:
  explicit SheetCutter(const Layout& layout) : layout_(layout) {}
  void add(SheetLabel label, document::HeadingPlace title);
  std::vector<Page> take_pages();

 private:
  void start_page(std::size_t form);
  const Layout& layout_;
  std::vector<Page> pages_;
  std::optional<std::size_t> form_;  ///< of the fields of the last page
  std::size_t used_ = 0;             ///< of its fields
};

}  // namespace benchwarden::print
