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

int quarter_of(const ReturnDefinition& asked, base::CivilMonth month) {
  if (asked.period != ReturnPeriod::kQuarter) return 0;
  return (month.month - 1) / kMonthsOfQuarter + 1;
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
    const int quarter = quarter_of(asked, month.month);
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

/// What was collected of one code as weighed on the scales. A container of a collection is weighed
/// once, however many loads were taken from it.
class WeighedSum {
 public:
  void add(const CollectedFigures& load) {
    auto& weighed = containers_[{load.collection, load.container}];
    if (load.weighed_mass) weighed = load.weighed_mass;
  }
  [[nodiscard]] std::optional<std::int64_t> mass() const {
    std::optional<std::int64_t> sum = 0;
    for (const auto& [container, weighed] : containers_) {
      sum = sum && weighed ? std::optional(*sum + *weighed) : std::nullopt;
    }
    return containers_.empty() ? std::nullopt : sum;
  }

 private:
  std::map<std::pair<std::string_view, std::string_view>, std::optional<std::int64_t>> containers_;
};

struct Consigned {
  const std::vector<CollectedFigures>& consignments;
  const base::Zone& zone;
};

/// By the day of the load: a weighing stands beside the first one of its container.
std::optional<std::int64_t> weighed_in(const ReturnDefinition& asked, const ReturnLine& line,
                                       const Consigned& consigned) {
  WeighedSum sum;
  for (const CollectedFigures& load : consigned.consignments) {
    const bool of_line =
        std::find(line.streams.begin(), line.streams.end(), load.stream.id) != line.streams.end();
    const int quarter = quarter_of(asked, consigned.zone.month_of(load.taken_at.instant));
    if (of_line && quarter == line.quarter) sum.add(load);
  }
  return sum.mass();
}

ReturnFigures figures_for(const ReturnsStated& stated, const ReturnDefinition& asked,
                          const std::vector<StreamYear>& streams, const Consigned& consigned) {
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
    const auto weighed = asked.figure == ReturnFigure::kCollected
                             ? weighed_in(asked, line, consigned)
                             : std::nullopt;
    if (weighed) line.weighed_thousandths = in_unit(*weighed, asked.unit);
    figures.lines.push_back(std::move(line));
  }
  return figures;
}

}  // namespace

std::vector<ReturnFigures> returns_of(const std::vector<ReturnsStated>& stated,
                                      const std::vector<StreamYear>& streams,
                                      const std::vector<CollectedFigures>& consignments,
                                      const base::Zone& zone) {
  const Consigned consigned{consignments, zone};
  std::vector<ReturnFigures> all;
  for (const ReturnsStated& of_pack : stated) {
    for (const ReturnDefinition& asked : of_pack.returns) {
      all.push_back(figures_for(of_pack, asked, streams, consigned));
    }
  }
  return all;
}

}  // namespace benchwarden::reports
