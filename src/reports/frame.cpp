#include "reports/frame.h"

#include <algorithm>

#include "reports/number_text.h"
#include "tallies/levels.h"

namespace benchwarden::reports {
namespace {

/// Enough of the root to compare two sheets by eye; the whole of it stands among the methods.
std::string short_root(const Frame& frame) {
  constexpr std::size_t kShortRoot = 16;
  return base::to_hex(frame.book_root).substr(0, kShortRoot);
}

}  // namespace

Frame frame_of(const tallies::State& state, const Basis& basis, Names names, FormTexts forms) {
  Frame frame;
  if (const tallies::Thing* site = state.thing("workshop", "site")) {
    frame.site_known = true;
    frame.site_name = tallies::word(site->attributes, "name");
    frame.site_address = tallies::word(site->attributes, "address");
    frame.site_reference = tallies::word(site->attributes, "site_reference");
  }
  frame.zone = basis.zone.name();
  frame.book_size = basis.book_size;
  frame.book_root = basis.book_root;
  frame.as_of = basis.zone.local(std::min(basis.as_of, basis.made_at));
  frame.made_at = basis.zone.local(basis.made_at);
  frame.standing = basis.standing;
  frame.report_id = basis.report_id;
  frame.packs = basis.packs;
  frame.names = std::move(names);
  frame.forms = std::move(forms);
  return frame;
}

namespace {

/// The book's own time, to the second: a report's only time is that of its last entry.
std::string last_entry_text(const Frame& frame, const ReportWording& wording) {
  if (frame.book_size == 0) return wording.text("page.no_entries");
  base::Timestamp time = frame.made_at;
  time.instant.ms -= time.instant.ms % 1000;
  return wording.text("page.made_at", {{"time", base::format_rfc3339(time)}});
}

}  // namespace

document::Document framed_document(const Frame& frame, const std::string& title,
                                   const std::string& period, const ReportWording& wording) {
  document::Document document;
  document.title = title;
  document.language = wording.text("language");
  document.report_id = frame.report_id;
  document.author = wording.text("author");
  document.standing = frame.standing;
  document.furniture.site = frame.site_known ? frame.site_name : wording.text("subject.no_site");
  document.furniture.period = period;
  document.furniture.made_at = last_entry_text(frame, wording);
  document.furniture.book_size =
      wording.text("page.book_size", {{"size", count_text(frame.book_size)}});
  document.furniture.tree_head = wording.text("page.tree_head", {{"root", short_root(frame)}});
  document.furniture.page_of = wording.text("page.page_of");
  document.furniture.not_for_issue = wording.text("page.not_for_issue");
  document.furniture.signs_missing = wording.text("page.signs_missing");
  return document;
}

std::vector<std::string> site_lines(const Frame& frame, const ReportWording& wording) {
  if (!frame.site_known) return {wording.text("subject.no_site")};
  std::vector<std::string> lines;
  if (frame.site_address.empty()) {
    lines.push_back(wording.text("subject.site_name_only", {{"name", frame.site_name}}));
  } else {
    lines.push_back(
        wording.text("subject.site", {{"name", frame.site_name}, {"address", frame.site_address}}));
  }
  if (!frame.site_reference.empty()) {
    lines.push_back(wording.text("subject.site_reference", {{"reference", frame.site_reference}}));
  }
  return lines;
}

std::vector<std::string> book_lines(const Frame& frame, const ReportWording& wording) {
  std::vector<std::string> lines;
  lines.push_back(wording.text(
      "subject.book", {{"size", count_text(frame.book_size)}, {"root", short_root(frame)}}));
  lines.push_back(frame.report_id.empty()
                      ? wording.text("subject.preview")
                      : wording.text("subject.report_id", {{"id", frame.report_id}}));
  return lines;
}

std::string tree_head_line(const Frame& frame, const ReportWording& wording) {
  return wording.text("methods.tree_head", {{"size", count_text(frame.book_size)},
                                            {"root", base::to_hex(frame.book_root)}});
}

std::vector<std::string> pack_lines(const Frame& frame, const ReportWording& wording) {
  std::vector<std::string> lines;
  for (const PackStated& pack : frame.packs) {
    lines.push_back(
        wording.text("methods.rule_pack",
                     {{"title", pack.title}, {"edition", pack.edition}, {"digest", pack.digest}}));
  }
  return lines;
}

base::JsonObject frame_json(const Frame& frame) {
  base::JsonArray packs;
  for (const PackStated& pack : frame.packs) {
    packs.push_back(
        base::JsonObject{{"pack", pack.id}, {"edition", pack.edition}, {"digest", pack.digest}});
  }
  base::Json site;
  if (frame.site_known) {
    site = base::JsonObject{{"name", frame.site_name},
                            {"address", frame.site_address},
                            {"site_reference", frame.site_reference}};
  }
  const bool for_issue = frame.standing == document::Standing::kForIssue;
  return {{"report_id", frame.report_id},
          {"for_issue", for_issue},
          {"site", site},
          {"time_zone", frame.zone},
          {"as_of", base::format_rfc3339(frame.as_of)},
          {"made_at", base::format_rfc3339(frame.made_at)},
          {"book_size", frame.book_size},
          {"book_root", base::to_hex(frame.book_root)},
          {"rule_packs", std::move(packs)}};
}

}  // namespace benchwarden::reports
