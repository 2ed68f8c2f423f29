#pragma once

#include <string>
#include <vector>

#include "document/blocks.h"

namespace benchwarden::document {

enum class PageBreak { kNone, kBefore };

/// What ends a document, so that documents bound into one can have it once.
enum class SectionRole { kBody, kSignature, kCautions, kMethods };

struct Section {
  std::vector<Block> blocks;
  PageBreak page_break = PageBreak::kNone;
  SectionRole role = SectionRole::kBody;
};

/// What stands on every page, in words ready to print. All texts of a page come from here, so
/// that a document is in one language throughout.
struct Furniture {
  std::string site;
  std::string period;
  std::string made_at;
  std::string book_size;
  std::string tree_head;      ///< short form
  std::string figures = {};   ///< beginning of their digest; only where it was issued
  std::string page_of;        ///< pattern with {page} and {pages}
  std::string not_for_issue;  ///< the mark on each page when the flag below is set
  std::string signs_missing;  ///< pattern with {count}, where a font lacks signs of the document
};

/// Pages of text, or labels alone: then every block is a Label.
enum class Form { kPages, kLabels };

enum class Standing { kForIssue, kNotForIssue };

/// A report as a value, free of any paper or screen. Every text is UTF-8; whatever else it holds
/// is made harmless when it is printed.
struct Document {
  std::string title;
  std::vector<std::string> subject_lines;  ///< under the title: which site, month, zone
  std::string language = "en";             ///< BCP 47
  std::string report_name;                 ///< e.g. "waste-month"
  std::string report_id;                   ///< of this issue of it; empty for a preview
  std::string author;                      ///< for the file's properties
  Standing standing = Standing::kForIssue;
  Form form = Form::kPages;
  Furniture furniture;
  std::vector<Section> sections;
};

}  // namespace benchwarden::document
