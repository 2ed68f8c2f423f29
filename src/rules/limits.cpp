#include "rules/limits.h"

#include <cassert>
#include <utility>

#include "quantities/units.h"
#include "rules/showing.h"

namespace benchwarden::rules {
namespace {

// Products of two 64-bit factors: 10^15 thousandths of a figure, 10^9 smallest units, 10^5 shares.
__extension__ using Wide = __int128;

constexpr std::int64_t kWhole = 100'000;  // 100 % in thousandths of a percent

}  // namespace

SettingSpec limit_is() { return {"limit_is", {"at-most", "below"}, false}; }
SettingSpec weighs() { return {"weighs", {"note", "due", "over"}}; }

findings::Severity weight(const Rule& rule) {
  if (rule.setting("weighs") == "note") return findings::Severity::kNote;
  if (rule.setting("weighs") == "due") return findings::Severity::kDue;
  return findings::Severity::kOver;
}

int compare(std::int64_t amount, const RuleFigure& figure, std::int64_t percent) {
  const quantities::Unit* unit = quantities::find_unit(figure.unit);
  assert(unit != nullptr && unit->offset == 0);
  const Wide left = Wide{amount} * unit->denominator * 1000 * kWhole;
  const Wide right = Wide{figure.value.thousandths} * unit->numerator * percent;
  if (left == right) return 0;
  return left < right ? -1 : 1;
}

bool is_beyond(const Rule& rule, std::int64_t amount, const RuleFigure& limit) {
  const int against = compare(amount, limit);
  return rule.setting("limit_is") == "below" ? against >= 0 : against > 0;
}

bool is_near(const Rule& rule, std::int64_t amount, const RuleFigure& limit) {
  const RuleFigure* near = rule.figure("near");
  return near != nullptr && compare(amount, limit, near->value.thousandths) >= 0;
}

findings::Shown shown_beside(std::int64_t amount, const RuleFigure& limit) {
  constexpr std::int64_t kShown = 1'000;  // three places of a litre or a kilogram
  const std::int64_t rounded = base::divide_round_half_away(amount, kShown) * kShown;
  const bool same_side = compare(rounded, limit) == compare(amount, limit);
  return same_side ? shown_amount(amount, is_volume(limit))
                   : shown_exactly(amount, is_volume(limit));
}

double as_number(const RuleFigure& figure) {
  return static_cast<double>(figure.value.thousandths) / 1000;
}

bool is_volume(const RuleFigure& figure) {
  const quantities::Unit* unit = quantities::find_unit(figure.unit);
  return unit != nullptr && unit->dimension == quantities::Dimension::kVolume;
}

std::optional<std::int64_t> measured_as(const tallies::StreamFacts& stream, std::int64_t amount,
                                        bool volume) {
  if (!volume) {
    const auto mass = tallies::as_mass(stream, amount);
    return mass ? std::optional(mass->count()) : std::nullopt;
  }
  if (stream.counted_by == tallies::CountedBy::kVolume) return amount;
  if (!stream.density) return std::nullopt;
  return volume_of(quantities::Milligrams(amount), *stream.density).count();
}

std::vector<std::string_view> volume_units() { return {"ml", "l", "m3", "qt_us", "gal_us"}; }
std::vector<std::string_view> mass_units() { return {"g", "kg", "t", "lb"}; }

std::vector<std::string_view> amount_units() {
  std::vector<std::string_view> units = volume_units();
  for (const std::string_view unit : mass_units()) units.push_back(unit);
  return units;
}

findings::Finding finding_of(const Rule& rule, findings::Subject subject, std::string_view says,
                             findings::Severity severity) {
  findings::Finding finding;
  finding.authority = rule.authority;
  finding.subject = std::move(subject);
  finding.says = says;
  finding.severity = severity;
  return finding;
}

}  // namespace benchwarden::rules
