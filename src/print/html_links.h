#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <unordered_set>

#include "document/document.h"

namespace benchwarden::print {

/// What can be led to within one document, which must outlive it.
class HtmlLinks {
 public:
  explicit HtmlLinks(const document::Document& document);

  /// The content of an element, made to lead to the anchor; unchanged where nothing has it.
  [[nodiscard]] std::string linked(std::string html, const std::string& anchor) const;
  /// ` id="…"` of a row that is led to, else "".
  [[nodiscard]] std::string id_of(const document::Row& row) const;
  /// Every entry rows are about, with the id of the first such row; none without an index.
  [[nodiscard]] const std::map<std::uint64_t, std::string>& entries() const { return entries_; }

 private:
  void find_row(const document::Row& row, bool indexed);

  std::unordered_set<std::string_view> anchors_;
  std::map<std::uint64_t, std::string> entries_;
  std::unordered_set<const document::Row*> first_rows_;
};

}  // namespace benchwarden::print
