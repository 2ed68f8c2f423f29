#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/zone.h"
#include "book/entry_source.h"

namespace benchwarden::workshop {

/// How many backups stay: the newest of each of so many days, weeks (from Monday) and months of the
/// workshop's calendar. Days, weeks and months without a backup do not count.
struct BackupsKept {
  int days = 7;
  int weeks = 5;
  int months = 12;
};

/// When the backup of that name was made; none of a name that `backup_name` does not give.
std::optional<base::Instant> backup_made_at(std::string_view name);

/// Whether the folder holds a backup of this book: one whose manifest holds, which says that it was
/// made when its name says, and names a head that the book had.
bool is_backup_of(const book::EntrySource& book, const std::filesystem::path& folder);
/// Whether the name is that of a backup being made, or given up.
bool was_begun_as_backup(std::string_view name);

/// Which of the names found beside each other go: backups that are not kept, and what was begun
/// more than a day before `now` and never finished. The newest backup by then stays always, and so
/// does whatever has another name or that of a time after `now`.
std::vector<std::string> backups_to_remove(const std::vector<std::string>& names,
                                           const BackupsKept& kept, const base::Zone& zone,
                                           base::Instant now);

/// The last time by `now` at which the clock of the zone said `hour`; where it skips that hour, the
/// moment it would have.
base::Instant last_backup_due(base::Instant now, int hour, const base::Zone& zone);

}  // namespace benchwarden::workshop
