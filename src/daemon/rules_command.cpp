#include <iostream>

#include "daemon/open_workshop.h"
#include "daemon/text_file.h"
#include "workshop/rule_adoption.h"

namespace benchwarden::daemon {

Exit check_rules(const Options& options, const std::string& file) {
  const auto loaded = load_definitions(options);
  if (!loaded) return loaded.error();
  const auto toml = read_text_file(file);
  if (!toml) return fail({base::ErrorCode::kInvalid, file + ": " + toml.error().detail});
  const auto pack = workshop::read_local_pack((*loaded)->definitions, *toml, file);
  if (!pack) {
    std::cerr << base::format_faults(pack.error());
    return Exit::kFaultsFound;
  }
  std::cout << pack->id << ", edition " << pack->edition << ": " << pack->rules.size()
            << " rules, no fault found\n";
  return Exit::kDone;
}

}  // namespace benchwarden::daemon
