#include "forms/canonical.h"

#include <algorithm>

namespace benchwarden::forms {

// Names are ASCII, so the order of bytes is that of UTF-16 code units.

void sort_canonically(entries::Fields& fields) {
  std::sort(fields.begin(), fields.end(),
            [](const entries::Field& a, const entries::Field& b) { return a.name < b.name; });
  for (entries::Field& field : fields) {
    auto* list = std::get_if<entries::List>(&field.value);
    if (list == nullptr) continue;
    for (entries::Record& record : list->rows) {
      std::sort(record.begin(), record.end(),
                [](const auto& a, const auto& b) { return a.first < b.first; });
    }
  }
}

void sort_canonically(std::vector<entries::AsRead>& readings) {
  std::sort(readings.begin(), readings.end(),
            [](const entries::AsRead& a, const entries::AsRead& b) { return a.field < b.field; });
}

}  // namespace benchwarden::forms
