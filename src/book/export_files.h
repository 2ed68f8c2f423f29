#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "book/book.h"

namespace benchwarden::book {

// The names of what lies in an export; README.txt there says what each holds.
inline constexpr std::string_view kExportedEntries = "entries.jsonl";
inline constexpr std::string_view kExportedHead = "head.txt";
inline constexpr std::string_view kExportedCheckpoint = "checkpoint.json";
inline constexpr std::string_view kExportedCheckpoints = "checkpoints.jsonl";
inline constexpr std::string_view kExportedNote = "checkpoint.note";
inline constexpr std::string_view kExportedKey = "verifier-key.txt";
inline constexpr std::string_view kExportedReadme = "README.txt";
inline constexpr std::string_view kExportedDigests = "digests.txt";
inline constexpr std::string_view kExportedAttachments = "attachments";
inline constexpr std::string_view kExportedTables = "tables";

/// head.txt of an export: "size 12", "root <64 hex digits>", a line each.
std::string exported_head(const TreeHead& head);
std::optional<TreeHead> parse_exported_head(std::string_view text);

/// The SHA-256 in hex of every file below `folder`, by its path from there, but for digests.txt.
/// kUnavailable, naming the file.
base::Result<std::map<std::string, std::string>> digests_below(const std::filesystem::path& folder);
/// A line a file, as `sha256sum` writes and checks them.
std::string format_digests(const std::map<std::string, std::string>& digests);

/// The bytes of a file. kNotFound, kUnavailable, naming it.
base::Result<std::string> read_exported(const std::filesystem::path& file);

}  // namespace benchwarden::book
