#include "access/setup.h"

#include <cstdint>

#include "access/one_time_code.h"
#include "access/people.h"
#include "access/query.h"
#include "access/token.h"

namespace benchwarden::access {

base::Result<std::optional<std::string>> renew_setup_code(sqlite::Database& database,
                                                          const Pepper& pepper, int tries) {
  const auto entered = anybody_entered(database);
  if (!entered) return entered.error();
  if (*entered) return std::optional<std::string>();
  std::string code = new_code();
  const std::string mark = code_mark(pepper, kSetupCode, code);
  const auto stored = run(database,
                          "INSERT OR REPLACE INTO setup_code (only_row, code_hash, tries_left) "
                          "VALUES (1, ?1, ?2)",
                          {Blob(mark), static_cast<std::int64_t>(tries)});
  if (!stored) return stored.error();
  return std::optional<std::string>(std::move(code));
}

}  // namespace benchwarden::access
