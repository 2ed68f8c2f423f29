#include "reports/returns.h"

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "quantities/units.h"

namespace benchwarden::reports {
namespace {

constexpr std::string_view kReturnsFolder = "reports/returns/";

template <class Value, std::size_t N>
Value chosen_word(base::TomlReader& reader, std::string_view name, const std::string& word,
                  const std::array<std::pair<std::string_view, Value>, N>& words) {
  std::string accepted;
  for (const auto& [each, value] : words) {
    if (each == word) return value;
    accepted += (accepted.empty() ? "" : ", ") + std::string(each);
  }
  reader.fault("'" + std::string(name) + "' must be one of " + accepted);
  return words.front().second;
}

constexpr std::array kFigureWords{
    std::pair{std::string_view("arisen"), ReturnFigure::kArisen},
    std::pair{std::string_view("collected"), ReturnFigure::kCollected},
    std::pair{std::string_view("category"), ReturnFigure::kCategory},
    std::pair{std::string_view("none"), ReturnFigure::kNone}};
constexpr std::array kCodeWords{
    std::pair{std::string_view("low_code"), ReturnCode::kListOfWaste},
    std::pair{std::string_view("national_code"), ReturnCode::kNational}};
constexpr std::array kPeriodWords{std::pair{std::string_view("year"), ReturnPeriod::kYear},
                                  std::pair{std::string_view("quarter"), ReturnPeriod::kQuarter}};
constexpr std::array kStreamWords{std::pair{std::string_view("hazardous"), true},
                                  std::pair{std::string_view("any"), false}};
using findings::Confidence;
constexpr std::array kConfidenceWords{
    std::pair{std::string_view("text-seen"), Confidence::kTextSeen},
    std::pair{std::string_view("second-hand"), Confidence::kSecondHand},
    std::pair{std::string_view("from-memory"), Confidence::kFromMemory}};

/// Only where there are figures to be made.
void read_figures(base::TomlReader& reader, ReturnDefinition& one) {
  if (one.figure != ReturnFigure::kArisen && one.figure != ReturnFigure::kCollected) return;
  one.code = chosen_word(reader, "by", reader.text("by"), kCodeWords);
  one.period = chosen_word(reader, "period", reader.text("period"), kPeriodWords);
  one.hazardous_only = chosen_word(reader, "streams", reader.text("streams"), kStreamWords);
  one.without_types = reader.texts("without_types");
  one.unit = reader.text("unit");
  const quantities::Unit* unit = quantities::find_unit(one.unit);
  if (unit == nullptr || unit->dimension != quantities::Dimension::kMass) {
    reader.fault("'unit' must be a unit of mass");
  }
}

ReturnDefinition read_return(const base::Toml& table, const std::string& path,
                             base::FileFaults& faults) {
  base::TomlReader reader(table, path, faults);
  ReturnDefinition one;
  one.id = reader.text("id");
  one.title = reader.text("title");
  one.sentence = reader.text("sentence");
  one.citation = reader.text("citation");
  one.confidence = chosen_word(reader, "confidence", reader.text("confidence"), kConfidenceWords);
  one.figure = chosen_word(reader, "figure", reader.text("figure"), kFigureWords);
  read_figures(reader, one);
  reader.finish();
  return one;
}

Returns::OfPack read_file(const base::Toml& table, const std::string& path,
                          base::FileFaults& faults) {
  base::TomlReader reader(table, path, faults);
  Returns::OfPack of_pack;
  of_pack.pack = reader.text("pack");
  std::set<std::string> ids;
  for (const base::Toml* one : reader.tables("returns")) {
    of_pack.returns.push_back(read_return(*one, path, faults));
    if (!ids.insert(of_pack.returns.back().id).second) {
      reader.fault("two returns have the id '" + of_pack.returns.back().id + "'");
    }
  }
  if (path != std::string(kReturnsFolder) + of_pack.pack + ".toml") {
    reader.fault("the file of returns is named after its pack");
  }
  reader.finish();
  return of_pack;
}

}  // namespace

base::Result<Returns, base::FileFaults> Returns::load(const base::DataFiles& files) {
  base::FileFaults faults;
  Returns returns;
  for (const base::DataFile& file : files) {
    if (!file.path.starts_with(kReturnsFolder)) continue;
    const auto parsed = base::parse_toml(file.bytes, file.path);
    if (!parsed) {
      faults.insert(faults.end(), parsed.error().begin(), parsed.error().end());
      continue;
    }
    returns.all_.push_back(read_file(*parsed, file.path, faults));
  }
  if (!faults.empty()) return faults;
  return returns;
}

const Returns::OfPack* Returns::find(std::string_view pack) const {
  const auto found =
      std::find_if(all_.begin(), all_.end(), [&](const OfPack& one) { return one.pack == pack; });
  return found == all_.end() ? nullptr : &*found;
}

}  // namespace benchwarden::reports
