#include "workshop/named_head.h"

#include "base/sha256.h"
#include "entries/field_value.h"

namespace benchwarden::workshop {

std::optional<std::string> fault_of_named_head(const entries::Entry& entry,
                                               const book::EntrySource& book) {
  const entries::Fields& fields = entry.content.fields;
  const auto* size = entries::find_field_as<quantities::Quantity>(fields, "book_size");
  const auto* named = entries::find_field_as<entries::Text>(fields, "book_root");
  if (size == nullptr || named == nullptr) return std::nullopt;
  const std::string shown = base::format_decimal(size->value);
  constexpr std::int64_t kThousandths = 1000;
  const auto count = static_cast<std::uint64_t>(size->value.thousandths / kThousandths);
  if (count >= entry.seq) return "it names a book of " + shown + " entries, and was one of them";
  const auto root = book.root_at(count);
  if (!root || base::to_hex(*root) == named->text) return std::nullopt;
  return "it names other first " + shown + " entries than this book has";
}

}  // namespace benchwarden::workshop
