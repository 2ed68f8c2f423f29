#include "reports/label_sizes.h"

#include <algorithm>
#include <string>

#include "base/decimal.h"

namespace benchwarden::reports {
namespace {

constexpr std::string_view kLabelSizesFile = "reports/layout/label_sizes.toml";

/// A positive length in thousandths of a millimetre, as written in millimetres.
std::int64_t micrometres(base::TomlReader& reader, std::string_view name) {
  constexpr std::int64_t kMost = 300'000;
  const auto value = base::parse_decimal(reader.text(name));
  if (value && value->thousandths > 0 && value->thousandths <= kMost) return value->thousandths;
  reader.fault(std::string(name) + ": a number in quotes, above 0, up to 300 is wanted");
  return 1;
}

int millimetres(base::TomlReader& reader, std::string_view name) {
  constexpr std::int64_t kMost = 300;
  const std::int64_t value = reader.integer_or(name, 0);
  if (value >= 1 && value <= kMost) return static_cast<int>(value);
  reader.fault(std::string(name) + ": a whole number from 1 to 300 is wanted");
  return 1;
}

}  // namespace

LabelSizes::Step LabelSizes::read_step(const base::Toml& table, const std::string& file,
                                       base::FileFaults& faults) {
  base::TomlReader reader(table, file, faults);
  Step step;
  if (const auto text = reader.maybe_text("up_to_l")) {
    const auto litres = base::parse_decimal(*text);
    if (litres) step.up_to_ml = litres->thousandths;
    if (!litres) reader.fault("up_to_l: a number in quotes is wanted");
  }
  step.size = {millimetres(reader, "width_mm"), millimetres(reader, "height_mm"),
               micrometres(reader, "pictogram_mm"), micrometres(reader, "x_height_mm"),
               reader.text("source")};
  reader.finish();
  return step;
}

void LabelSizes::check_order(const std::vector<Step>& steps, base::TomlReader& reader) {
  if (steps.empty() || steps.back().up_to_ml) {
    reader.fault("the last of [[sizes]] must have no up_to_l");
  }
  for (std::size_t i = 0; i + 1 < steps.size(); ++i) {
    const auto& upper = steps[i].up_to_ml;
    const auto& next = steps[i + 1].up_to_ml;
    if (!upper || (next && *next <= *upper)) {
      reader.fault("[[sizes]] must stand in order of up_to_l");
    }
  }
}

base::Result<LabelSizes, base::FileFaults> LabelSizes::load(const base::DataFiles& files) {
  const std::string path(kLabelSizesFile);
  const auto file = std::find_if(files.begin(), files.end(),
                                 [&](const base::DataFile& one) { return one.path == path; });
  if (file == files.end()) return base::FileFaults{{path, 0, "is missing"}};
  const auto parsed = base::parse_toml(file->bytes, path);
  if (!parsed) return parsed.error();
  base::FileFaults faults;
  base::TomlReader reader(*parsed, path, faults);
  LabelSizes sizes;
  for (const base::Toml* table : reader.tables("sizes")) {
    sizes.steps_.push_back(read_step(*table, path, faults));
  }
  check_order(sizes.steps_, reader);
  reader.finish();
  if (!faults.empty()) return faults;
  return sizes;
}

const document::LabelSize& LabelSizes::of(std::int64_t millilitres) const {
  const auto found = std::find_if(steps_.begin(), steps_.end(), [&](const Step& step) {
    return !step.up_to_ml || millilitres <= *step.up_to_ml;
  });
  return found->size;
}

}  // namespace benchwarden::reports
