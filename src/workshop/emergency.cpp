#include "workshop/emergency.h"

#include <utility>

namespace benchwarden::workshop {

base::Result<Emergency, base::FileFaults> read_emergency(const base::DataFile& file) {
  const auto table = base::parse_toml(file.bytes, file.path);
  if (!table) return table.error();
  base::FileFaults faults;
  base::TomlReader reader(*table, file.path, faults);
  Emergency emergency{reader.text("title"), {}};
  for (const base::Toml* section_table : reader.tables("section")) {
    base::TomlReader section(*section_table, file.path, faults);
    emergency.sections.push_back({section.text("title"), section.texts("lines")});
    if (emergency.sections.back().lines.empty()) section.fault("'lines' is empty");
    section.text("source");  // for whoever edits the file; not shown on the page
    section.finish();
  }
  if (emergency.sections.empty()) reader.fault("there is no [[section]]");
  reader.finish();
  if (!faults.empty()) return faults;
  return emergency;
}

}  // namespace benchwarden::workshop
