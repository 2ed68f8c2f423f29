#include "book/throwaway_file.h"

#include <system_error>
#include <utility>

#include "book/database_copy.h"

namespace benchwarden::book {
namespace {

base::Result<Connection> open_migrated(const std::filesystem::path& path,
                                       const std::vector<std::string_view>& schema,
                                       LookedAt looked_at) {
  auto database = sqlite::Database::open(path.string(), sqlite::Mode::kReadWriteCreate);
  if (!database.ok()) return database.error();
  auto migrated = sqlite::migrate(*database, schema);
  if (!migrated.ok()) return migrated.error();
  Connection connection(*std::move(database));
  if (looked_at == LookedAt::kAsItIsRead) return connection;
  const auto whole = check_database(connection, path);
  if (!whole.ok()) return whole.error();
  return connection;
}

}  // namespace

void remove_throwaway(const std::filesystem::path& path) {
  for (const char* suffix : {"", "-wal", "-shm"}) {
    std::error_code ignored;  // what could not be removed shows at the next opening
    std::filesystem::remove(path.string() + suffix, ignored);
  }
}

base::Result<Connection> open_throwaway(const std::filesystem::path& path,
                                        const std::vector<std::string_view>& schema,
                                        LookedAt looked_at) {
  auto connection = open_migrated(path, schema, looked_at);
  if (connection.ok() || connection.error().code == base::ErrorCode::kUnavailable) {
    return connection;
  }
  remove_throwaway(path);
  return open_migrated(path, schema, looked_at);
}

}  // namespace benchwarden::book
