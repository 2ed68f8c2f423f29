#include <string>

#include "sqlite/database.h"

namespace benchwarden::sqlite {
namespace {

base::Result<std::size_t> steps_done(Database& database) {
  auto query = database.prepare("PRAGMA user_version");
  if (!query.ok()) return query.error();
  auto row = query->step();
  if (!row.ok()) return row.error();
  const std::int64_t version = query->integer(0);
  if (version < 0) {
    return base::Error{base::ErrorCode::kDamaged,
                       "the schema version is negative: " + std::to_string(version)};
  }
  return static_cast<std::size_t>(version);
}

base::Status<> take_step(Database& database, std::size_t number, std::string_view sql) {
  auto transaction = Transaction::begin(database);
  if (!transaction.ok()) return transaction.error();
  auto stepped = database.execute(sql);
  if (!stepped.ok()) return stepped.error();
  // PRAGMA takes no parameters; the number is ours.
  auto bumped = database.execute("PRAGMA user_version=" + std::to_string(number));
  if (!bumped.ok()) return bumped.error();
  return transaction->commit();
}

}  // namespace

base::Error newer_format(const std::string& file, std::int64_t version, std::size_t known) {
  return {base::ErrorCode::kConflict,
          file + " was written by a newer version of the program: format " +
              std::to_string(version) + ", and this one knows formats up to " +
              std::to_string(known) + "; start the newer one"};
}

base::Status<> migrate(Database& database, const std::vector<std::string_view>& steps) {
  auto done = steps_done(database);
  if (!done.ok()) return done.error();
  if (*done > steps.size()) {
    return newer_format(database.file(), static_cast<std::int64_t>(*done), steps.size());
  }
  for (std::size_t i = *done; i < steps.size(); ++i) {
    auto stepped = take_step(database, i + 1, steps[i]);
    if (!stepped.ok()) {
      return base::Error{stepped.error().code,
                         "schema step " + std::to_string(i + 1) + ": " + stepped.error().detail};
    }
  }
  return base::Done{};
}

}  // namespace benchwarden::sqlite
