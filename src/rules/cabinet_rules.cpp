#include <algorithm>
#include <optional>
#include <string>

#include "calculations/vapour.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"

namespace benchwarden::rules {
namespace {

using calculations::FlashPointCategory;
using findings::Judgement;
using findings::Severity;
using findings::Subject;
using quantities::Microlitres;
using quantities::Quantity;

/// One row of a count: what product, in containers of what size and material, how many.
struct Counted {
  std::string product;
  std::string material;
  Microlitres each;
  std::int64_t thousandths = 0;  ///< of a container

  [[nodiscard]] Microlitres all() const { return Microlitres(each.count() * thousandths / 1000); }
};

/// What an amount of a row is taken to be at most: no sum of rows can overflow.
constexpr std::int64_t kThousandthsMax = 1'000'000'000;

std::vector<Counted> rows_of(const tallies::Record& count) {
  std::vector<Counted> found;
  const entries::Fields fields = count.fields();
  const auto* rows = entries::find_field_as<entries::List>(fields, "rows");
  if (rows == nullptr) return found;
  for (const entries::Record& row : rows->rows) {
    const auto* product = entries::find_scalar_as<entries::Id>(row, "product");
    const auto* material = entries::find_scalar_as<entries::Code>(row, "material");
    const auto* volume = entries::find_scalar_as<Quantity>(row, "volume_ml");
    const auto* pieces = entries::find_scalar_as<Quantity>(row, "count");
    if (product == nullptr || volume == nullptr || pieces == nullptr) continue;
    found.push_back(
        {product->slug, material == nullptr ? "" : material->slug,
         Microlitres(std::clamp<std::int64_t>(volume->value.thousandths, 0, kThousandthsMax)),
         std::clamp<std::int64_t>(pieces->value.thousandths, 0, kThousandthsMax)});
  }
  return found;
}

constexpr double kBoilsLow = -200;
constexpr double kBoilsHigh = 1000;

FlashPointCategory by_table(const Rule& rule, double flash_c, double boiling_c) {
  const auto flash = quantities::celsius(flash_c);
  const auto boiling = quantities::celsius(boiling_c);
  return rule.setting("table") == "osha" ? calculations::osha_category(flash, boiling)
                                         : calculations::clp_category(flash, boiling);
}

/// The category by the rule's table; none where no flash point was entered. Where the boiling point
/// is unknown, the category of a liquid that boils high.
std::optional<int> category_of(const Rule& rule, const Scene& scene, const std::string& product) {
  const entries::Fields& known = scene.attributes({"product", product});
  const auto flash = number_of(known, "flash_point_c", "c");
  if (!flash) return std::nullopt;
  const auto boiling = number_of(known, "boiling_point_c", "c");
  return static_cast<int>(by_table(rule, *flash, boiling.value_or(kBoilsHigh)));
}

/// A figure to the microlitre.
Microlitres volume_of(const RuleFigure& figure) {
  const auto converted = quantities::convert({figure.value, quantities::find_unit(figure.unit)},
                                             *quantities::find_unit("ml"));
  return Microlitres(converted ? converted->value.thousandths : INT64_MAX);
}

findings::Shown shown_in(Microlitres volume, const std::string& unit) {
  const Quantity millilitres{quantities::in_millilitres(volume), quantities::find_unit("ml")};
  const auto converted = quantities::convert(millilitres, *quantities::find_unit(unit));
  return shown(converted ? converted->value : base::Decimal{}, unit);
}

Microlitres counted(const Rule& rule, const Scene& scene, const tallies::Record& count) {
  const auto categories = listed_words(rule.setting("categories"));
  Microlitres sum;
  for (const Counted& row : rows_of(count)) {
    const auto category = category_of(rule, scene, row.product);
    if (!category) continue;
    const std::string word = std::to_string(*category);
    if (std::find(categories.begin(), categories.end(), word) != categories.end()) sum += row.all();
  }
  return sum;
}

/// More of some categories in one place than the limit, by its last count. Since the first of the
/// counts in a row that had more.
void judge_cabinet_quantity(const Rule& rule, const Scene& scene, Judgement& said) {
  const RuleFigure& limit = *rule.figure("limit");
  for (const Subject& cabinet : scene.subjects(rule, "cabinet")) {
    const ToldOf counts = told_of(scene, cabinet, {"cabinet-count"});
    const auto within = std::find_if(counts.begin(), counts.end(), [&](const auto* count) {
      return counted(rule, scene, *count) <= volume_of(limit);
    });
    if (within == counts.begin()) continue;
    const tallies::Record& first = **std::prev(within);
    auto finding = finding_of(rule, cabinet, "cabinet-quantity-over", Severity::kOver, first.at);
    finding.values = {{"measured", shown_in(counted(rule, scene, *counts.front()), limit.unit)},
                      {"limit", shown(limit)},
                      {"which", shown_word(rule.setting("what"))},
                      {"day", shown(scene.day_of(counts.front()->at))}};
    finding.entries = ends_of(first, *counts.front());
    said.findings.push_back(std::move(finding));
  }
}

/// "safety-can" in category 2 has the figure safety_can_2.
const RuleFigure* size_limit(const Rule& rule, const Scene& scene, const Counted& row) {
  const auto category = category_of(rule, scene, row.product);
  if (!category) return nullptr;
  std::string name = row.material + "_" + std::to_string(*category);
  std::replace(name.begin(), name.end(), '-', '_');
  return rule.figure(name);
}

/// A product in containers larger than its category and their material allow, by the last count.
void judge_container_size(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& cabinet : scene.subjects(rule, "cabinet")) {
    const tallies::Record* count = scene.last(cabinet, "cabinet-count");
    if (count == nullptr) continue;
    std::vector<Counted> rows = rows_of(*count);
    std::erase_if(rows, [&](const Counted& row) {
      const RuleFigure* limit = size_limit(rule, scene, row);
      return limit == nullptr || row.each <= volume_of(*limit);
    });
    if (rows.empty()) continue;
    const Counted& first = rows.front();
    const RuleFigure& limit = *size_limit(rule, scene, first);
    auto finding = finding_of(rule, cabinet, "container-size-over", Severity::kOver, count->at);
    finding.authority = rule.authority_of(limit);
    finding.values = {{"measured", shown_in(first.each, limit.unit)},
                      {"limit", shown(limit)},
                      {"which", shown_word(first.product)},
                      {"material", shown_word(first.material)},
                      {"count", shown_word(std::to_string(rows.size()))},
                      {"day", shown(scene.day_of(count->at))}};
    finding.entries = {count->seq};
    said.findings.push_back(std::move(finding));
  }
}

/// What is missing to tell the category of a product; "" where nothing is. The boiling point is
/// needed where it decides.
std::string_view missing_of(const Rule& rule, const entries::Fields& product) {
  const auto flash = number_of(product, "flash_point_c", "c");
  if (!flash) return "flash point";
  if (number_of(product, "boiling_point_c", "c")) return "";
  return by_table(rule, *flash, kBoilsLow) == by_table(rule, *flash, kBoilsHigh) ? ""
                                                                                 : "boiling point";
}

/// A counted product whose category cannot be told.
void judge_product_category(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& product : scene.subjects(rule, "product")) {
    const std::string_view missing = missing_of(rule, scene.attributes(product));
    if (missing.empty()) continue;
    const tallies::Record* found = nullptr;
    for (const auto& [id, records] : scene.state().records().of_class("cabinet")) {
      const tallies::Record* count = scene.last({"cabinet", id}, "cabinet-count");
      if (count == nullptr || (found != nullptr && found->at <= count->at)) continue;
      const std::vector<Counted> rows = rows_of(*count);
      const bool has = std::any_of(rows.begin(), rows.end(),
                                   [&](const Counted& row) { return row.product == product.id; });
      if (has) found = count;
    }
    if (found == nullptr) continue;
    auto finding =
        finding_of(rule, product, "product-category-unknown", Severity::kNote, found->at);
    finding.values = {{"item", shown_word(missing)}, {"day", shown(scene.day_of(found->at))}};
    finding.entries = {found->seq};
    said.findings.push_back(std::move(finding));
  }
}

std::vector<FigureSpec> size_figures() {
  std::vector<FigureSpec> figures;
  for (const std::string_view name :
       {"glass_1",      "glass_2",   "glass_3",      "glass_4",      "plastic_1",
        "plastic_2",    "plastic_3", "plastic_4",    "metal_1",      "metal_2",
        "metal_3",      "metal_4",   "safety_can_1", "safety_can_2", "safety_can_3",
        "safety_can_4", "drum_1",    "drum_2",       "drum_3",       "drum_4"}) {
    figures.push_back({name, {"gal_us", "qt_us", "l", "ml"}, false});
  }
  return figures;
}

}  // namespace

std::vector<RuleKind> cabinet_kinds() {
  const SettingSpec table{"table", {"osha", "clp"}};
  return {{"cabinet-quantity",
           {{"limit", {"gal_us", "l"}}},
           {table, {"categories", {}, true, Word::kHazardCategories}, {"what", {}}},
           judge_cabinet_quantity,
           "cabinet"},
          {"container-size", size_figures(), {table}, judge_container_size, "cabinet"},
          {"product-category", {}, {table}, judge_product_category, "product"}};
}

}  // namespace benchwarden::rules
