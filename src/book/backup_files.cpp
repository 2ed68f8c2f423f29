#include "book/backup_files.h"

#include <system_error>

#include "book/last_head.h"

namespace benchwarden::book {
namespace {

base::Result<bool> is_there(const std::filesystem::path& path) {
  std::error_code failure;
  const bool there = std::filesystem::exists(path, failure);
  if (!failure) return there;
  return base::Error{base::ErrorCode::kUnavailable, path.string() + ": " + failure.message()};
}

}  // namespace

base::Status<> copy_book(const std::filesystem::path& from, const std::filesystem::path& to) {
  const auto there = is_there(from / kBackupBook);
  if (!there) return there.error();
  if (!*there) {
    return base::Error{base::ErrorCode::kNotFound, "there is no book in " + from.string()};
  }
  const auto last = LastHeadFile::read(from);
  if (!last) return last.error();
  if (*last) {
    auto created = LastHeadFile::create(to, **last);
    if (!created) return created;
  }
  return copy_database(from / kBackupBook, to / kBackupBook);
}

base::Status<> copy_people(const std::filesystem::path& from, const std::filesystem::path& to) {
  const auto there = is_there(from / kBackupAccess);
  if (!there) return there.error();
  if (!*there) return base::Done{};
  auto copied = copy_database(from / kBackupAccess, to / kBackupAccess);
  if (!copied) return copied;
  return check_database(to / kBackupAccess);
}

base::Result<FilesByName> backup_files_in(const std::filesystem::path& folder) {
  FilesByName files;
  for (const std::string_view name : {kBackupBook, kBackupHead, kBackupAccess}) {
    const auto there = is_there(folder / name);
    if (!there) return there.error();
    if (!*there) continue;
    const auto facts = facts_of(folder / name);
    if (!facts) return facts.error();
    files.emplace(name, *facts);
  }
  return files;
}

}  // namespace benchwarden::book
