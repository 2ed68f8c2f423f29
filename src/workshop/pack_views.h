#pragma once

#include <string>

#include "base/json.h"
#include "base/result.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// Every built-in pack with its text, to be read and copied, and the workshop's own with its text,
/// or null: {"built_in": [{"pack", "title", "edition", "remarks", "digest", "in_force", "toml"}],
/// "local": {"pack", "edition", "digest", "entry", "toml"}}. Errors as PackShelf::pack.
base::Result<base::Json> show_packs(const Ports& ports);
/// The workshop's own alone.
base::Result<base::Json> show_local_pack(const Ports& ports);

/// What a text would be as the workshop's own pack, or every fault of it; nothing is put in force:
/// {"pack": {"pack", "title", "edition", "rules"} or null, "faults": [{"line", "detail"}]}.
base::Json show_checked_pack(const Ports& ports, const std::string& text);

}  // namespace benchwarden::workshop
