#include "access/setup.h"

#include <sodium.h>

#include <array>
#include <cstdint>
#include <string_view>

#include "access/people.h"
#include "access/query.h"
#include "access/token.h"

namespace benchwarden::access {
namespace {

std::string mark_code(const Pepper& pepper, const std::string& code) {
  const auto mark = pepper.mark("set-up code " + code);
  return {mark.begin(), mark.end()};
}

}  // namespace

base::Result<std::optional<std::string>> renew_setup_code(sqlite::Database& database,
                                                          const Pepper& pepper, int tries) {
  const auto entered = anybody_entered(database);
  if (!entered) return entered.error();
  if (*entered) return std::optional<std::string>();
  std::string code = new_setup_code();
  const std::string mark = mark_code(pepper, code);
  const auto stored = run(database,
                          "INSERT OR REPLACE INTO setup_code (only_row, code_hash, tries_left) "
                          "VALUES (1, ?1, ?2)",
                          {Blob(mark), static_cast<std::int64_t>(tries)});
  if (!stored) return stored.error();
  return std::optional<std::string>(std::move(code));
}

base::Result<CodeCheck> check_setup_code(sqlite::Database& database, const Pepper& pepper,
                                         const std::string& typed) {
  const auto entered = anybody_entered(database);
  if (!entered) return entered.error();
  if (*entered) return CodeCheck::kNotNeeded;
  std::string stored;
  std::int64_t tries_left = 0;
  {
    const auto row = first_row(database, "SELECT code_hash, tries_left FROM setup_code");
    if (!row) return row.error();
    if (!*row) return CodeCheck::kNoCode;
    stored = (*row)->blob(0);
    tries_left = (*row)->integer(1);
  }
  const std::string mark = mark_code(pepper, tidy_setup_code(typed));
  if (stored.size() == mark.size() && sodium_memcmp(stored.data(), mark.data(), mark.size()) == 0) {
    return CodeCheck::kRight;
  }
  const auto counted = tries_left > 1
                           ? run(database, "UPDATE setup_code SET tries_left = tries_left - 1")
                           : drop_setup_code(database);
  if (!counted) return counted.error();
  return tries_left > 1 ? CodeCheck::kWrong : CodeCheck::kLastTryWrong;
}

base::Status<> drop_setup_code(sqlite::Database& database) {
  return run(database, "DELETE FROM setup_code");
}

}  // namespace benchwarden::access
