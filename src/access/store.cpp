#include "access/store.h"

#include <string>

#include "access/private_file.h"
#include "access/schema.h"

namespace benchwarden::access {

base::Result<std::unique_ptr<Store>> Store::open(const std::filesystem::path& folder) {
  const std::filesystem::path file = folder / "access.db";
  // Before SQLite sees it: the -wal and -shm files get the mode of the database file.
  const auto made = make_private_file(file);
  if (!made) return made.error();
  auto database = sqlite::Database::open(file.string(), sqlite::Mode::kReadWriteCreate);
  if (!database) return database.error();
  const auto migrated = sqlite::migrate(*database, schema_steps());
  if (!migrated) return migrated.error();
  return std::unique_ptr<Store>(new Store(*std::move(database)));
}

}  // namespace benchwarden::access
