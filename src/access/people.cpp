#include "access/people.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <charconv>
#include <utility>

#include "access/query.h"
#include "base/text.h"

namespace benchwarden::access {
namespace {

constexpr std::array<std::pair<Role, std::string_view>, 3> kRoleNames{{
    {Role::kTechnician, "technician"},
    {Role::kManager, "manager"},
    {Role::kInspector, "inspector"},
}};
constexpr std::string_view kPersonColumns = "SELECT number, name, role, active FROM person";

base::Result<Person> read_person(const sqlite::Statement& row) {
  const auto role = role_from_name(row.text(2));
  if (!role) return base::Error{base::ErrorCode::kDamaged, "access.db: a role of no known name"};
  return Person{person_id(row.integer(0)), row.text(1), *role, row.integer(3) != 0};
}

}  // namespace

std::string_view role_name(Role role) {
  const auto* const found = std::find_if(kRoleNames.begin(), kRoleNames.end(),
                                         [role](const auto& pair) { return pair.first == role; });
  assert(found != kRoleNames.end());
  return found->second;
}

std::optional<Role> role_from_name(std::string_view name) {
  for (const auto& [role, text] : kRoleNames) {
    if (text == name) return role;
  }
  return std::nullopt;
}

std::string person_id(std::int64_t number) { return "p" + std::to_string(number); }

std::optional<std::int64_t> number_of(char letter, std::string_view id) {
  std::int64_t number = 0;
  if (id.size() < 2 || id.size() > 16 || id[0] != letter) return std::nullopt;
  const char* const end = id.data() + id.size();
  const auto [rest, error] = std::from_chars(id.data() + 1, end, number);
  if (error != std::errc{} || rest != end || number < 1) return std::nullopt;
  if (std::to_string(number) != id.substr(1)) return std::nullopt;  // "p01" is no name of p1
  return number;
}

std::optional<std::int64_t> person_number(std::string_view id) { return number_of('p', id); }

base::Status<> check_name(std::string_view name) {
  const bool text = base::is_valid_utf8(name) && !base::hidden_sign(name);
  const bool blank = base::is_blank(name) || name.front() == ' ' || name.back() == ' ';
  if (!text || blank || base::count_code_points(name) > 80) {
    return base::Error{base::ErrorCode::kInvalid,
                       "a name has 1 to 80 characters, all of them to be seen, and no blank at "
                       "either end"};
  }
  return base::Done{};
}

base::Result<std::vector<Person>> all_people(sqlite::Database& database) {
  auto rows = query(database, std::string(kPersonColumns) + " ORDER BY number");
  if (!rows) return rows.error();
  std::vector<Person> people;
  while (true) {
    const auto row = rows->step();
    if (!row) return row.error();
    if (!*row) return people;
    auto person = read_person(*rows);
    if (!person) return person.error();
    people.push_back(*std::move(person));
  }
}

base::Result<Person> find_person(sqlite::Database& database, std::string_view id) {
  const auto row = first_row(database, std::string(kPersonColumns) + " WHERE number = ?1",
                             {person_number(id).value_or(0)});
  if (!row) return row.error();
  if (!*row) return base::Error{base::ErrorCode::kNotFound, "nobody has that id"};
  return read_person(**row);
}

base::Result<bool> anybody_entered(sqlite::Database& database) {
  const auto row = first_row(database, "SELECT 1 FROM person LIMIT 1");
  if (!row) return row.error();
  return row->has_value();
}

base::Status<> check_name_is_free(sqlite::Database& database, const std::string& name) {
  const auto same =
      first_row(database, "SELECT 1 FROM person WHERE active = 1 AND name = ?1", {name});
  if (!same) return same.error();
  if (*same) return base::Error{base::ErrorCode::kConflict, "somebody active has that name"};
  return base::Done{};
}

base::Result<bool> is_last_manager(sqlite::Database& database, const Person& person) {
  if (!person.active || person.role != Role::kManager) return false;
  const auto other = first_row(
      database, "SELECT 1 FROM person WHERE active = 1 AND role = 'manager' AND number <> ?1",
      {person_number(person.id).value_or(0)});
  if (!other) return other.error();
  return !other->has_value();
}

base::Status<> leave_out_numbers(sqlite::Database& database, std::string_view table,
                                 std::int64_t largest) {
  // Where AUTOINCREMENT keeps the largest number it ever gave; no row before it gave one.
  const auto begun = run(database,
                         "INSERT INTO sqlite_sequence (name, seq) SELECT ?1, 0 WHERE NOT "
                         "EXISTS (SELECT 1 FROM sqlite_sequence WHERE name = ?1)",
                         {table});
  if (!begun) return begun;
  return run(database, "UPDATE sqlite_sequence SET seq = ?2 WHERE name = ?1 AND seq < ?2",
             {table, largest});
}

base::Result<Person> insert_person(sqlite::Database& database, const std::string& name, Role role,
                                   const std::string& pin_hash) {
  const auto free = check_name_is_free(database, name);
  if (!free) return free.error();
  const auto row = first_row(
      database, "INSERT INTO person (name, role, pin_hash) VALUES (?1, ?2, ?3) RETURNING number",
      {name, role_name(role), pin_hash});
  if (!row) return row.error();
  assert(row->has_value());
  return Person{person_id((*row)->integer(0)), name, role, true};
}

base::Status<> erase_person(sqlite::Database& database, std::int64_t person) {
  const auto blanked = run(database,
                           "UPDATE person SET name = '', pin_hash = '', passphrase_hash = NULL, "
                           "pin_serial = pin_serial + 1 "
                           "WHERE number = ?1",
                           {person});
  if (!blanked) return blanked;
  // Where the person signed in from, and when they were refused.
  const auto guards = run(database, "DELETE FROM sign_in_guard WHERE person = ?1", {person});
  if (!guards) return guards;
  const auto sign_ins = run(database, "DELETE FROM sign_in WHERE person = ?1", {person});
  if (!sign_ins) return sign_ins;
  return run(database, "DELETE FROM refusal WHERE person = ?1", {person});
}

base::Result<std::optional<StoredPin>> find_pin(sqlite::Database& database, std::string_view id,
                                                Secret::Kind kind) {
  const int column = kind == Secret::Kind::kPin ? 1 : 3;
  const auto row = first_row(database,
                             "SELECT number, pin_hash, pin_serial, passphrase_hash FROM person "
                             "WHERE number = ?1 AND active = 1",
                             {person_number(id).value_or(0)});
  if (!row) return row.error();
  if (!*row || (*row)->is_null(column)) return std::optional<StoredPin>();
  return std::optional<StoredPin>(
      StoredPin{(*row)->integer(0), (*row)->text(column), (*row)->integer(2), kind});
}

base::Status<> set_new_pin(sqlite::Database& database, std::int64_t person,
                           const std::string& hash) {
  return run(database,
             "UPDATE person SET pin_hash = ?2, pin_serial = pin_serial + 1, passphrase_hash = NULL "
             "WHERE number = ?1",
             {person, hash});
}

base::Status<> set_new_passphrase(sqlite::Database& database, std::int64_t person,
                                  const std::string& hash) {
  return run(
      database,
      "UPDATE person SET passphrase_hash = ?2, pin_serial = pin_serial + 1 WHERE number = ?1",
      {person, hash});
}

base::Status<> set_same_pin(sqlite::Database& database, const StoredPin& pin) {
  const std::string column = pin.kind == Secret::Kind::kPin ? "pin_hash" : "passphrase_hash";
  return run(database,
             "UPDATE person SET " + column + " = ?3 WHERE number = ?1 AND pin_serial = ?2",
             {pin.person, pin.serial, pin.hash});
}

}  // namespace benchwarden::access
