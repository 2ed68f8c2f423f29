#include <algorithm>
#include <map>
#include <utility>

#include "quantities/units.h"
#include "reports/waste_year.h"

// What returns ask for, from the figures of the year.

namespace benchwarden::reports {
namespace {

constexpr int kMonthsOfQuarter = 3;

bool is_asked(const ReturnDefinition& asked, const StreamYear& stream) {
  if (asked.hazardous_only && !stream.sums.facts.hazardous) return false;
  const auto& without = asked.without_types;
  return std::find(without.begin(), without.end(), stream.waste_type) == without.end();
}

const std::string& code_of(const ReturnDefinition& asked, const StreamYear& stream) {
  return asked.code == ReturnCode::kNational ? stream.national_code : stream.sums.facts.low_code;
}

std::optional<std::int64_t> mass_of(const ReturnDefinition& asked, const StreamMonth& month) {
  return asked.figure == ReturnFigure::kArisen ? month.arisen_mass : month.collected_mass;
}

/// Rounded once, halves away from zero; none where it is too large to write.
std::optional<std::int64_t> in_unit(std::int64_t milligrams, const std::string& unit) {
  // Masses of reports are whole grams: thousandths of a kilogram.
  const quantities::Quantity mass{base::Decimal{milligrams / 1'000}, quantities::find_unit("kg")};
  const auto converted = quantities::convert(mass, *quantities::find_unit(unit));
  return converted ? std::optional(converted->value.thousandths) : std::nullopt;
}

/// By quarter (0 for the year) and code.
using LinesByCode = std::map<std::pair<int, std::string>, ReturnLine>;

void add_stream(const ReturnDefinition& asked, const StreamYear& stream, LinesByCode& lines) {
  for (const StreamMonth& month : stream.months) {
    const bool by_quarter = asked.period == ReturnPeriod::kQuarter;
    const int quarter = by_quarter ? (month.month.month - 1) / kMonthsOfQuarter + 1 : 0;
    const std::string& code = code_of(asked, stream);
    ReturnLine& line =
        lines.try_emplace({quarter, code}, ReturnLine{quarter, code, {}, 0, {}}).first->second;
    if (line.streams.empty() || line.streams.back() != stream.sums.facts.id) {
      line.streams.push_back(stream.sums.facts.id);
    }
    const auto mass = mass_of(asked, month);
    line.mass = line.mass && mass ? std::optional(*line.mass + *mass) : std::nullopt;
  }
}

ReturnFigures figures_for(const ReturnsStated& stated, const ReturnDefinition& asked,
                          const std::vector<StreamYear>& streams) {
  ReturnFigures figures{stated.pack, stated.title, asked, {}};
  const bool of_streams =
      asked.figure == ReturnFigure::kArisen || asked.figure == ReturnFigure::kCollected;
  if (!of_streams) return figures;
  LinesByCode lines;
  for (const StreamYear& stream : streams) {
    if (is_asked(asked, stream)) add_stream(asked, stream, lines);
  }
  for (auto& [key, line] : lines) {
    if (line.mass) line.thousandths = in_unit(*line.mass, asked.unit);
    figures.lines.push_back(std::move(line));
  }
  return figures;
}

}  // namespace

std::vector<ReturnFigures> returns_of(const std::vector<ReturnsStated>& stated,
                                      const std::vector<StreamYear>& streams) {
  std::vector<ReturnFigures> all;
  for (const ReturnsStated& of_pack : stated) {
    for (const ReturnDefinition& asked : of_pack.returns) {
      all.push_back(figures_for(of_pack, asked, streams));
    }
  }
  return all;
}

}  // namespace benchwarden::reports
