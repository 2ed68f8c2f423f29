#pragma once

#include <vector>

#include "reports/waste_month.h"

// Figures of waste for machines, the same in each report that has them.

namespace benchwarden::reports {

base::JsonObject stream_json(const StreamFigures& stream);
base::Json collected_json(const CollectedFigures& collected);
base::Json open_json(const OpenDocument& open);

template <class Item, class ToJson>
base::Json array_of(const std::vector<Item>& items, ToJson to_json) {
  base::JsonArray array;
  for (const Item& item : items) array.emplace_back(to_json(item));
  return array;
}

}  // namespace benchwarden::reports
