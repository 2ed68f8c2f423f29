#include "access/forget_sessions.h"

#include "access/store.h"

namespace benchwarden::access {

base::Status<> forget_sessions(const std::filesystem::path& folder) {
  const auto store = Store::open(folder);
  if (!store) return store.error();
  return (*store)->with([](sqlite::Database& database) {
    return database.execute(
        "DELETE FROM session; DELETE FROM setup_code; DELETE FROM pairing_code;");
  });
}

}  // namespace benchwarden::access
