#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>

#include "base/result.h"
#include "book/database_copy.h"

namespace benchwarden::book {

// The names of what a backup holds, as in a data folder.
inline constexpr std::string_view kBackupBook = "book.db";
inline constexpr std::string_view kBackupHead = "head.txt";
inline constexpr std::string_view kBackupAccess = "access.db";

using FilesByName = std::map<std::string, FileFacts, std::less<>>;

/// The book of a data folder, with the head that it had been recorded to have before it was copied.
/// kNotFound: no book there.
base::Status<> copy_book(const std::filesystem::path& from, const std::filesystem::path& to);

/// access.db, where there is one, looked at as it was written. After the book: whoever signed an
/// entry of it is in it then.
base::Status<> copy_people(const std::filesystem::path& from, const std::filesystem::path& to);

/// Facts of those of the three files that are in `folder`.
base::Result<FilesByName> backup_files_in(const std::filesystem::path& folder);

}  // namespace benchwarden::book
