#include <algorithm>

#include "calculations/calculator_groups.h"

namespace benchwarden::calculations {
namespace {

std::vector<Calculator> all() {
  std::vector<Calculator> all;
  for (std::vector<Calculator> (*const group)() :
       {gas_calculators, room_calculators, oil_calculators, container_calculators,
        gauge_calculators, general_calculators}) {
    std::vector<Calculator> made = group();
    for (Calculator& one : made) all.push_back(std::move(one));
  }
  std::sort(all.begin(), all.end(),
            [](const Calculator& a, const Calculator& b) { return a.name < b.name; });
  return all;
}

}  // namespace

const std::vector<Calculator>& calculators() {
  static const std::vector<Calculator> kAll = all();
  return kAll;
}

}  // namespace benchwarden::calculations
