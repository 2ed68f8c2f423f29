#include "workshop/named_findings.h"

#include "tallies/facts.h"

namespace benchwarden::workshop {

EntryByFinding entries_naming_findings(const tallies::State& state, std::string_view kind,
                                       base::CivilDate today) {
  EntryByFinding by_key;
  for (const tallies::Record& record : state.records("", kind)) {
    if (record.struck) continue;
    const entries::Fields fields = record.fields();
    const std::string key(tallies::word(fields, "finding"));
    const auto* until = entries::find_field_as<base::CivilDate>(fields, "until");
    by_key.erase(key);
    if (until == nullptr || today < *until) by_key.emplace(key, record.seq);
  }
  return by_key;
}

}  // namespace benchwarden::workshop
