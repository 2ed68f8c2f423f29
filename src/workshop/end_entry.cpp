#include "workshop/end_entry.h"

#include "base/sha256.h"
#include "workshop/daemon_draft.h"

namespace benchwarden::workshop {
namespace {

constexpr std::string_view kEndAccepted = "end-accepted";

quantities::Quantity count(std::uint64_t number) {
  return {base::Decimal{static_cast<std::int64_t>(number) * 1000}, quantities::find_unit("1")};
}

std::string shown_count(const entries::Fields& fields, std::string_view name) {
  const auto* quantity = entries::find_field_as<quantities::Quantity>(fields, name);
  return quantity == nullptr ? "?" : base::format_decimal(quantity->value);
}

}  // namespace

book::Draft end_entry(const book::OddEnd& end, const forms::Catalog& catalog, base::Instant now) {
  book::Draft draft = daemon_draft(kEndAccepted, catalog, now);
  entries::Fields& fields = draft.content.fields;
  fields.push_back({"book_root", entries::Text{base::to_hex(end.found.root)}});
  fields.push_back({"book_size", count(end.found.size)});
  std::string record = end.file_missing ? "missing" : "unreadable";
  if (end.expected) {
    fields.push_back({"expected_root", entries::Text{base::to_hex(end.expected->root)}});
    fields.push_back({"expected_size", count(end.expected->size)});
    record = "readable";
  }
  fields.push_back({"head_record", entries::Code{record}});
  return draft;
}

std::optional<std::string> told_of_end(const entries::Entry& entry) {
  if (entry.content.kind != kEndAccepted) return std::nullopt;
  const entries::Fields& fields = entry.content.fields;
  const auto* record = entries::find_field_as<entries::Code>(fields, "head_record");
  const bool readable = record != nullptr && record->slug == "readable";
  const std::string expected = readable
                                   ? "had said " + shown_count(fields, "expected_size") + " entries"
                                   : "was " + (record == nullptr ? "?" : record->slug);
  return "note: entry " + std::to_string(entry.seq) + ": at " +
         base::format_rfc3339({entry.recorded_at, 0}) + " the book was accepted as it ended with " +
         shown_count(fields, "book_size") + " entries; head.txt " + expected;
}

}  // namespace benchwarden::workshop
