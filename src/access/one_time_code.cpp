#include "access/one_time_code.h"

#include <sodium.h>

#include "access/query.h"
#include "access/token.h"

namespace benchwarden::access {

std::string code_mark(const Pepper& pepper, const CodeKind& kind, const std::string& code) {
  const auto mark = pepper.mark(std::string(kind.purpose) + code);
  return {mark.begin(), mark.end()};
}

base::Result<CodeCheck> check_code(sqlite::Database& database, const Pepper& pepper,
                                   const CodeKind& kind, const std::string& typed) {
  const std::string table(kind.table);
  std::string stored;
  std::int64_t tries_left = 0;
  {
    const auto row = first_row(database, "SELECT code_hash, tries_left FROM " + table);
    if (!row) return row.error();
    if (!*row) return CodeCheck::kNoCode;
    stored = (*row)->blob(0);
    tries_left = (*row)->integer(1);
  }
  const std::string mark = code_mark(pepper, kind, tidy_code(typed));
  if (stored.size() == mark.size() && sodium_memcmp(stored.data(), mark.data(), mark.size()) == 0) {
    return CodeCheck::kRight;
  }
  const auto counted = tries_left > 1
                           ? run(database, "UPDATE " + table + " SET tries_left = tries_left - 1")
                           : drop_code(database, kind);
  if (!counted) return counted.error();
  return tries_left > 1 ? CodeCheck::kWrong : CodeCheck::kLastTryWrong;
}

base::Status<> drop_code(sqlite::Database& database, const CodeKind& kind) {
  return run(database, "DELETE FROM " + std::string(kind.table));
}

}  // namespace benchwarden::access
