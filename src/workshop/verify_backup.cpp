#include "workshop/verify_backup.h"

#include "book/export_files.h"

namespace benchwarden::workshop {
namespace {

/// What its files are, and the manifest says otherwise.
base::Result<std::vector<std::string>> faults_of_files(const std::filesystem::path& folder,
                                                       const BackupManifest& manifest) {
  const auto found = book::backup_files_in(folder);
  if (!found) return found.error();
  std::vector<std::string> faults;
  for (const auto& [name, facts] : manifest.files) {
    const auto file = found->find(name);
    if (file == found->end()) {
      faults.push_back(name + " is missing; the manifest names it");
    } else if (file->second != facts) {
      faults.push_back(name + " is not what the manifest says");
    }
  }
  for (const auto& [name, facts] : *found) {
    if (!manifest.files.contains(name)) faults.push_back(name + " is not in the manifest");
  }
  return faults;
}

}  // namespace

bool says_it_is_backup(const std::filesystem::path& folder) {
  const auto manifest = book::read_exported(folder / kBackupManifest);
  return manifest || manifest.error().code != base::ErrorCode::kNotFound;
}

std::vector<std::string> faults_by_manifest(const Verified& book, const BackupManifest& manifest) {
  std::vector<std::string> faults;
  if (book.head != manifest.head) {
    faults.emplace_back("the book has another tree head than the manifest names");
  }
  const bool same_fold = manifest.fold_version == tallies::kFoldVersion;
  if (same_fold && book.tallies != manifest.tallies) {
    faults.emplace_back("the entries fold to other tallies than when it was made");
  }
  return faults;
}

base::Result<Verified> verify_backup(const std::filesystem::path& folder,
                                     const Definitions& definitions) {
  const auto manifest = read_manifest(folder);
  if (!manifest) return manifest.error();
  auto faults = faults_of_files(folder, *manifest);
  if (!faults) return faults.error();
  auto verified = verify_book(folder, definitions);
  if (!verified) return verified;
  const auto of_book = faults_by_manifest(*verified, *manifest);
  faults->insert(faults->end(), of_book.begin(), of_book.end());
  const std::string backup = "the backup of " + base::format_rfc3339_utc(manifest->made_at) +
                             " that manifest.json describes";
  verified->notes.push_back(faults->empty()
                                ? "this is " + backup + ", in every file"
                                : "this is not " + backup +
                                      "; take that file out of a folder in which a book goes on");
  verified->faults.insert(verified->faults.end(), faults->begin(), faults->end());
  return verified;
}

}  // namespace benchwarden::workshop
