#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "access/access.h"
#include "base/result.h"
#include "sqlite/database.h"

namespace benchwarden::access {

/// 12 of "p12", where the letter is 'p'. Numbers start at 1 and are never given twice.
std::optional<std::int64_t> number_of(char letter, std::string_view id);
/// "p12" <-> 12.
std::string person_id(std::int64_t number);
std::optional<std::int64_t> person_number(std::string_view id);

base::Status<> check_name(std::string_view name);  ///< kInvalid: see Access::add_person

base::Result<std::vector<Person>> all_people(sqlite::Database& database);
base::Result<Person> find_person(sqlite::Database& database, std::string_view id);
base::Result<bool> anybody_entered(sqlite::Database& database);

/// kConflict: an active person has that name.
base::Status<> check_name_is_free(sqlite::Database& database, const std::string& name);
/// Whether this is an active manager and nobody else is.
base::Result<bool> is_last_manager(sqlite::Database& database, const Person& person);
/// No number up to `largest` is given to a row of that table from now on.
base::Status<> leave_out_numbers(sqlite::Database& database, std::string_view table,
                                 std::int64_t largest);

/// kConflict: an active person has that name.
base::Result<Person> insert_person(sqlite::Database& database, const std::string& name, Role role,
                                   const std::string& pin_hash);

/// Leaves the number, and nothing by which the person could be told or could sign in.
base::Status<> erase_person(sqlite::Database& database, std::int64_t person);
inline constexpr const char* kErased = "the name of that person has been erased";

/// The hash of a person's PIN or passphrase; the serial tells a new one from the same one hashed
/// again.
struct StoredPin {
  std::int64_t person = 0;
  std::string hash;
  std::int64_t serial = 0;
  Secret::Kind kind = Secret::Kind::kPin;
};
/// None: unknown or inactive, or without a passphrase.
base::Result<std::optional<StoredPin>> find_pin(sqlite::Database& database, std::string_view id,
                                                Secret::Kind kind);
base::Status<> set_new_pin(sqlite::Database& database, std::int64_t person,
                           const std::string& hash);
base::Status<> set_new_passphrase(sqlite::Database& database, std::int64_t person,
                                  const std::string& hash);
base::Status<> set_same_pin(sqlite::Database& database, const StoredPin& pin);

}  // namespace benchwarden::access
