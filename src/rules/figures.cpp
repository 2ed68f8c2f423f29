#include "rules/figures.h"

#include <algorithm>

#include "base/decimal.h"

namespace benchwarden::rules {

base::Result<Figures, base::FileFaults> Figures::load(const base::DataFiles& files) {
  Figures figures;
  base::FileFaults faults;
  for (const base::DataFile& file : files) {
    const auto toml = base::parse_toml(file.bytes, file.path);
    if (!toml) {
      faults.insert(faults.end(), toml.error().begin(), toml.error().end());
      continue;
    }
    base::TomlReader reader(*toml, file.path, faults);
    for (const base::Toml* row : reader.tables("figures")) {
      base::TomlReader one(*row, file.path, faults);
      Figure figure{one.text("id"), one.text("value"), one.text("unit"), one.text("citation")};
      if (!base::parse_decimal(figure.value)) one.fault("the value is no decimal");
      if (figures.find(figure.id) != nullptr) one.fault("a second figure '" + figure.id + "'");
      one.finish();
      figures.all_.push_back(std::move(figure));
    }
    reader.finish();
  }
  if (!faults.empty()) return faults;
  return figures;
}

const Figure* Figures::find(std::string_view id) const {
  const auto found =
      std::find_if(all_.begin(), all_.end(), [&](const Figure& one) { return one.id == id; });
  return found == all_.end() ? nullptr : &*found;
}

}  // namespace benchwarden::rules
