#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/json.h"
#include "reports/input.h"
#include "reports/wording.h"
#include "tallies/state.h"

namespace benchwarden::reports {

/// What stands on and under every report: the site, the book, the times, and what people call
/// what the figures name by id.
struct Frame {
  bool site_known = false;
  std::string site_name;
  std::string site_address;
  std::string site_reference;
  std::string zone;
  std::uint64_t book_size = 0;
  base::Sha256Digest book_root{};
  base::Timestamp as_of;  ///< how far the book reaches; never after made_at
  base::Timestamp made_at;
  document::Standing standing = document::Standing::kForIssue;
  std::string report_id;
  std::vector<PackStated> packs;
  Names names;
  FormTexts forms;
};

Frame frame_of(const tallies::State& state, const Basis& basis, Names names, FormTexts forms);

/// A document with its furniture and no sections yet. `period` goes into the corner of every page.
document::Document framed_document(const Frame& frame, const std::string& title,
                                   const std::string& period, const ReportWording& wording);
/// Site lines for under the title.
std::vector<std::string> site_lines(const Frame& frame, const ReportWording& wording);
/// Book size and short tree head, and the report's own id where it has one.
std::vector<std::string> book_lines(const Frame& frame, const ReportWording& wording);

/// The tree head in full, for the end of the report.
std::string tree_head_line(const Frame& frame, const ReportWording& wording);

/// The rule packs that were in force, with their editions, one under the other.
std::vector<std::string> pack_lines(const Frame& frame, const ReportWording& wording);

base::JsonObject frame_json(const Frame& frame);

}  // namespace benchwarden::reports
