#include "reports/cautions.h"

#include <algorithm>

namespace benchwarden::reports {
namespace {

constexpr std::string_view kCautionFolder = "reports/cautions/";
// The emergency page is no caution; the app's own reader checks it.
constexpr std::string_view kEmergencyFile = "reports/cautions/emergency.toml";

bool holds(const std::vector<std::string>& names, std::string_view name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

std::vector<std::string> required_texts(base::TomlReader& reader, std::string_view name) {
  std::vector<std::string> texts = reader.texts(name);
  if (texts.empty() || holds(texts, "")) {
    reader.fault("'" + std::string(name) + "' must hold at least one text, none of them empty");
  }
  return texts;
}

Caution read_caution(const base::Toml& table, const std::string& path, base::FileFaults& faults) {
  base::TomlReader reader(table, path, faults);
  Caution caution;
  caution.id = reader.text("id");
  caution.title = reader.text("title");
  caution.sentences = required_texts(reader, "sentences");
  caution.kinds = reader.texts("kinds");
  caution.screens = reader.texts("screens");
  caution.reports = reader.texts("reports");
  caution.labels = reader.texts("labels");
  caution.sources = required_texts(reader, "sources");
  if (path != std::string(kCautionFolder) + caution.id + ".toml") {
    reader.fault("the file of a caution is named after its id");
  }
  if (caution.kinds.empty() && caution.screens.empty() && caution.reports.empty()) {
    reader.fault("nothing brings this caution up: name kinds, screens or reports");
  }
  reader.finish();
  return caution;
}

std::vector<const Caution*> those(const std::vector<Caution>& all,
                                  std::vector<std::string> Caution::*condition,
                                  std::string_view name) {
  std::vector<const Caution*> found;
  for (const Caution& caution : all) {
    if (holds(caution.*condition, name)) found.push_back(&caution);
  }
  return found;
}

}  // namespace

base::Result<Cautions, base::FileFaults> Cautions::load(const base::DataFiles& files) {
  base::FileFaults faults;
  Cautions cautions;
  for (const base::DataFile& file : files) {
    if (!file.path.starts_with(kCautionFolder) || file.path == kEmergencyFile) continue;
    const auto parsed = base::parse_toml(file.bytes, file.path);
    if (!parsed) {
      faults.insert(faults.end(), parsed.error().begin(), parsed.error().end());
      continue;
    }
    cautions.all_.push_back(read_caution(*parsed, file.path, faults));
  }
  std::sort(cautions.all_.begin(), cautions.all_.end(),
            [](const Caution& a, const Caution& b) { return a.id < b.id; });
  const auto twin =
      std::adjacent_find(cautions.all_.begin(), cautions.all_.end(),
                         [](const Caution& a, const Caution& b) { return a.id == b.id; });
  if (twin != cautions.all_.end()) {
    faults.push_back(
        {std::string(kCautionFolder), 0, "two cautions have the id '" + twin->id + "'"});
  }
  if (!faults.empty()) return faults;
  return cautions;
}

const Caution* Cautions::find(std::string_view id) const {
  const auto found = std::find_if(all_.begin(), all_.end(),
                                  [&](const Caution& caution) { return caution.id == id; });
  return found == all_.end() ? nullptr : &*found;
}

std::vector<const Caution*> Cautions::for_kind(std::string_view kind) const {
  return those(all_, &Caution::kinds, kind);
}

std::vector<const Caution*> Cautions::for_screen(std::string_view screen) const {
  return those(all_, &Caution::screens, screen);
}

std::vector<const Caution*> Cautions::for_label(std::string_view thing_class,
                                                std::string_view content) const {
  const std::string thing(thing_class);
  std::string held = thing + "/" + std::string(content);
  if (those(all_, &Caution::labels, held).empty()) held = thing + "/unknown";
  std::vector<const Caution*> found;
  for (const Caution& caution : all_) {
    if (holds(caution.labels, thing) || holds(caution.labels, held)) found.push_back(&caution);
  }
  return found;
}

document::CautionBox caution_box(const Caution& caution) {
  return {caution.title, caution.sentences, caution.sources};
}

}  // namespace benchwarden::reports
