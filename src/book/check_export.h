#pragma once

#include <filesystem>
#include <functional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "book/export_files.h"
#include "book/merkle.h"
#include "entries/leaf.h"

namespace benchwarden::book {

/// What an export holds, once every byte of it was checked.
struct CheckedExport {
  TreeHead head;
  std::set<std::string> files;        ///< all but digests.txt, by their path from the folder
  std::set<std::string> attachments;  ///< SHA-256 in hex of those that entries name
};
using ExportFaults = std::vector<std::string>;

/// Told of each line: the tree after it, and its entry, where it is one.
using ExportWatcher = std::function<void(const TreeEdge&, const entries::Entry*)>;

/// Checks the export in `folder`: every line of entries.jsonl is the exact leaf of its place, the
/// leaves give the size and the root of head.txt, every attachment is there and has its digest, and
/// every file is what digests.txt says. Every fault, each with file, and line where there is one.
base::Result<CheckedExport, ExportFaults> check_export(const std::filesystem::path& folder,
                                                       const entries::Vocabulary& vocabulary,
                                                       const ExportWatcher& watch);

/// Each line of entries.jsonl, with its number from 1 and without its end, until `visit` returns an
/// error. kDamaged: the last line has no end; kUnavailable.
base::Status<> each_line(const std::filesystem::path& folder,
                         const std::function<base::Status<>(std::uint64_t, std::string_view)>&);

}  // namespace benchwarden::book
