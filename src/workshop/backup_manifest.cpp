#include "workshop/backup_manifest.h"

#include <algorithm>
#include <utility>

#include "base/json.h"
#include "book/export_files.h"

namespace benchwarden::workshop {
namespace {

constexpr int kBackupFormat = 1;

base::Error broken_manifest(const std::string& what) {
  return {base::ErrorCode::kDamaged, std::string(kBackupManifest) + ": " + what};
}

std::string text_in(const base::Json& json, std::string_view name) {
  const base::Json* member = json.find(name);
  const std::string* text = member == nullptr ? nullptr : member->string();
  return text == nullptr ? "" : *text;
}

std::int64_t whole_in(const base::Json& json, std::string_view name) {
  const base::Json* member = json.find(name);
  return member == nullptr ? -1 : member->integer().value_or(-1);
}

base::Sha256Digest digest_in(const base::Json& json, std::string_view name) {
  const auto digest = base::digest_from_hex(text_in(json, name));
  return digest ? *digest : base::Sha256Digest{};
}

}  // namespace

std::string format_manifest(const BackupManifest& manifest) {
  base::JsonArray files;
  for (const auto& [name, facts] : manifest.files) {
    files.push_back(base::JsonObject{
        {"bytes", facts.bytes}, {"name", name}, {"sha256", base::to_hex(facts.digest)}});
  }
  const base::JsonObject all{
      {"files", std::move(files)},   {"fold_version", manifest.fold_version},
      {"format", kBackupFormat},     {"made_at", base::format_rfc3339_utc(manifest.made_at)},
      {"program", manifest.program}, {"root", base::to_hex(manifest.head.root)},
      {"size", manifest.head.size},  {"tallies_sha256", base::to_hex(manifest.tallies)}};
  return base::write_canonical_json(all) + "\n";
}

base::Result<BackupManifest> parse_manifest(std::string_view text) {
  const auto json = base::parse_json(text);
  if (!json) return broken_manifest(json.error().detail);
  const std::int64_t format = whole_in(*json, "format");
  if (format > kBackupFormat) {
    return base::Error{base::ErrorCode::kConflict,
                       "the backup has format " + std::to_string(format) +
                           ", this program reads format " + std::to_string(kBackupFormat)};
  }
  BackupManifest manifest;
  manifest.program = text_in(*json, "program");
  const auto made_at = base::parse_rfc3339(text_in(*json, "made_at"));
  if (!made_at) return broken_manifest(made_at.error().detail);
  manifest.made_at = made_at->instant;
  manifest.head = {static_cast<std::uint64_t>(whole_in(*json, "size")), digest_in(*json, "root")};
  manifest.fold_version = static_cast<int>(whole_in(*json, "fold_version"));
  manifest.tallies = digest_in(*json, "tallies_sha256");
  const base::Json* files = json->find("files");
  if (files != nullptr && files->array() != nullptr) {
    for (const base::Json& file : *files->array()) {
      manifest.files[text_in(file, "name")] = {static_cast<std::uint64_t>(whole_in(file, "bytes")),
                                               digest_in(file, "sha256")};
    }
  }
  // Whatever else is wrong with it shows here.
  if (text != format_manifest(manifest)) return broken_manifest("not as this program writes it");
  for (const auto& [name, facts] : manifest.files) {
    if (name != book::kBackupBook && name != book::kBackupHead && name != book::kBackupAccess) {
      return broken_manifest("names '" + name + "', which belongs to no backup");
    }
  }
  for (const std::string_view name : {book::kBackupBook, book::kBackupHead}) {
    if (!manifest.files.contains(name)) return broken_manifest("lacks " + std::string(name));
  }
  return manifest;
}

std::string manifest_digest_line(std::string_view manifest) {
  return base::to_hex(base::sha256(manifest)) + "  " + std::string(kBackupManifest) + "\n";
}

base::Result<BackupManifest> read_manifest(const std::filesystem::path& folder) {
  const auto text = book::read_exported(folder / kBackupManifest);
  if (!text) return text.error();
  const auto line = book::read_exported(folder / kBackupManifestDigest);
  if (!line) return line.error();
  if (*line != manifest_digest_line(*text)) {
    return broken_manifest("does not match " + std::string(kBackupManifestDigest));
  }
  return parse_manifest(*text);
}

std::string backup_time(base::Instant instant) {
  constexpr std::int64_t kSecondMs = 1000;
  std::string digits = base::format_rfc3339_utc({instant.ms / kSecondMs * kSecondMs});
  std::erase_if(digits, [](char c) { return c == '-' || c == ':'; });
  return digits;
}

std::string backup_name(base::Instant made_at) { return "benchwarden-" + backup_time(made_at); }

}  // namespace benchwarden::workshop
