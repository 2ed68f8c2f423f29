#include "workshop/due_calendar.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "base/sha256.h"
#include "base/uuid.h"
#include "print/icalendar.h"
#include "reports/source_words.h"
#include "workshop/due.h"

namespace benchwarden::workshop {
namespace {

/// A UUID of version 8 (RFC 9562 section 5.8) from a hash of what names the item: the first entry
/// of the book, whose id no other workshop has, the rule, the subject and which part of it. RFC
/// 7986 section 5.3 asks for a UID that tells nothing about its origin.
std::string uid_of(const std::string& book_id, const DueItem& item) {
  const std::string subject = item.part.empty() ? item.subject : item.subject + "\n" + item.part;
  const std::array<std::string_view, 5> parts{book_id, "\n", item.rule, "\n", subject};
  const base::Sha256Digest digest = base::sha256(parts);
  base::Uuid id;
  std::copy_n(digest.begin(), id.bytes.size(), id.bytes.begin());
  id.bytes[6] = static_cast<std::uint8_t>(0x80U | (id.bytes[6] & 0x0FU));
  id.bytes[8] = static_cast<std::uint8_t>(0x80U | (id.bytes[8] & 0x3FU));
  return base::format_uuid(id);
}

std::string calendar_name(const Ports& ports) {
  const reports::ReportWording& wording = ports.definitions.reports.wording;
  const auto state = ports.live.still();
  const tallies::Thing* site = state->thing("workshop", "site");
  const auto* name =
      site == nullptr ? nullptr : entries::find_field_as<entries::Text>(site->attributes, "name");
  if (name == nullptr) return wording.text("due.calendar_no_site");
  return wording.text("due.calendar", {{"site", name->text}});
}

}  // namespace

base::Result<std::string> due_calendar(const Ports& ports) {
  const auto due = due_items(ports, Persons::kById);
  if (!due) return due.error();
  std::vector<print::CalendarItem> items;
  if (!due->empty()) {
    const auto first = ports.book.entry(1);
    if (!first) return first.error();
    const std::string book_id = base::format_uuid(first->content.id);
    for (const DueItem& item : *due) {
      items.push_back(
          {uid_of(book_id, item), item.day, item.sentence,
           reports::source_words(ports.definitions.reports.wording, item.citation, item.confidence),
           item.last_changed});
    }
  }
  return print::to_icalendar(calendar_name(ports), items);
}

}  // namespace benchwarden::workshop
