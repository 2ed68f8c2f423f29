#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/json.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// What becomes of one thing of the file.
struct ImportedThing {
  enum class Act { kAdded, kChanged, kUnchanged };
  std::string thing_class;
  std::string thing;
  Act act = Act::kUnchanged;
  std::vector<std::string> fields;  ///< the attributes that are entered
};
std::string_view act_name(ImportedThing::Act act);  ///< "added", "changed", "unchanged"

/// One fault of the file, to be mended where it stands.
struct ImportFault {
  int line = 0;       ///< 0: of the file as a whole
  std::string thing;  ///< "container/w1"; "" where no thing could be read
  std::string field;  ///< "capacity_l"; "" where it is about the thing itself
  std::string code;   ///< the refusal's, or "bad_file"
  std::string sentence;
};
using ImportFaults = std::vector<ImportFault>;
/// "FILE:LINE: container/w1: SENTENCE" for people.
std::string format_import_fault(const std::string& file, const ImportFault& fault);

enum class ImportMode { kDryRun, kRecord };

/// In the order in which they are entered; or every fault of the whole file; or why the book could
/// not take it (kForbidden: the person is no manager, kUnavailable).
using ImportOutcome = std::variant<std::vector<ImportedThing>, ImportFaults, base::Error>;

/// Enters the things under care that a TOML file describes (see FiledThing): new ones are added,
/// of known ones what differs is changed, and what says nothing new is left out. The entries are
/// validated one on top of another and recorded in one commit, all or none; a dry run ends before
/// that.
ImportOutcome import_register(const Ports& ports, const Actor& actor, std::string_view toml,
                              ImportMode mode);

}  // namespace benchwarden::workshop
