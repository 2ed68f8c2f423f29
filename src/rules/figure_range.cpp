#include "rules/figure_range.h"

#include <algorithm>
#include <array>
#include <cassert>

namespace benchwarden::rules {
namespace {

struct UnitRange {
  std::string_view unit;
  FigureRange range;
};

constexpr FigureRange kAmount{0, 1'000'000};

constexpr std::array kByUnit{
    UnitRange{"d", {0, 3650, true}},    UnitRange{"months", {1, 1200, true}},
    UnitRange{"years", {1, 100, true}}, UnitRange{"percent", {0, 1000}},
    UnitRange{"ppm", kAmount},          UnitRange{"c", {-200, 1000}},
    UnitRange{"k", {0, 100}},           UnitRange{"bar", {0, 10'000}},
    UnitRange{"bar_l", kAmount},        UnitRange{"mm", kAmount},
    UnitRange{"g_mol", {1, 1000}},      UnitRange{"mm_hg", {0, 10'000}},
    UnitRange{"kpa", {0, 10'000}},      UnitRange{"1", {0, 1000}},
    UnitRange{"ml", kAmount},           UnitRange{"l", kAmount},
    UnitRange{"m3", kAmount},           UnitRange{"qt_us", kAmount},
    UnitRange{"gal_us", kAmount},       UnitRange{"g", kAmount},
    UnitRange{"kg", kAmount},           UnitRange{"t", kAmount},
    UnitRange{"lb", kAmount},
};

}  // namespace

FigureRange range_of_unit(std::string_view unit) {
  const auto found = std::find_if(kByUnit.begin(), kByUnit.end(),
                                  [&](const UnitRange& one) { return one.unit == unit; });
  assert(found != kByUnit.end());  // every unit of a kind stands above
  return found->range;
}

bool is_in(const FigureRange& range, base::Decimal value) {
  constexpr std::int64_t kWhole = 1000;
  if (range.whole && value.thousandths % kWhole != 0) return false;
  return value.thousandths >= range.lowest * kWhole && value.thousandths <= range.highest * kWhole;
}

std::string describe(const FigureRange& range) {
  return std::string(range.whole ? "a whole number" : "a number") + " from " +
         std::to_string(range.lowest) + " to " + std::to_string(range.highest);
}

}  // namespace benchwarden::rules
