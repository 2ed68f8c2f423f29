#include "access/inspections.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <utility>

#include "access/accounts.h"
#include "access/query.h"

namespace benchwarden::access {

using sqlite::Database;

namespace {

constexpr std::int64_t kDayOfMs = 86'400'000;
constexpr std::array<std::pair<InspectionScope, std::string_view>, 3> kInspectionScopes{{
    {InspectionScope::kEverything, "everything"},
    {InspectionScope::kWaste, "waste"},
    {InspectionScope::kCylindersAndTools, "cylinders-and-tools"},
}};

base::Status<> end_standing(Database& database, std::int64_t person, base::Instant now) {
  return run(database,
             "UPDATE inspection SET ended_ms = ?2 WHERE person = ?1 AND ended_ms IS NULL "
             "AND until_ms > ?2",
             {person, now.ms});
}

base::Result<std::string> insert_inspection(Database& database, std::int64_t person,
                                            const Inspection& wanted, std::int64_t by,
                                            base::Instant now) {
  const auto row = first_row(
      database,
      "INSERT INTO inspection (person, scope, from_ms, until_ms, given_by, given_ms) "
      "VALUES (?1, ?2, ?3, ?4, ?5, ?6) RETURNING number",
      {person, inspection_scope_name(wanted.scope), wanted.from.ms, wanted.until.ms, by, now.ms});
  if (!row) return row.error();
  assert(row->has_value());
  return "i" + std::to_string((*row)->integer(0));
}

}  // namespace

std::string_view inspection_scope_name(InspectionScope scope) {
  const auto* const found = std::find_if(kInspectionScopes.begin(), kInspectionScopes.end(),
                                         [scope](const auto& pair) { return pair.first == scope; });
  assert(found != kInspectionScopes.end());
  return found->second;
}

std::optional<InspectionScope> inspection_scope_from_name(std::string_view name) {
  for (const auto& [scope, text] : kInspectionScopes) {
    if (text == name) return scope;
  }
  return std::nullopt;
}

base::Result<std::optional<Inspection>> given_inspection(Database& database, std::int64_t person,
                                                         base::Instant now) {
  const auto row = first_row(database,
                             "SELECT number, scope, from_ms, until_ms FROM inspection "
                             "WHERE person = ?1 AND ended_ms IS NULL AND until_ms > ?2 "
                             "ORDER BY number DESC LIMIT 1",
                             {person, now.ms});
  if (!row) return row.error();
  if (!*row) return std::optional<Inspection>();
  const auto scope = inspection_scope_from_name((*row)->text(1));
  if (!scope) return base::Error{base::ErrorCode::kDamaged, "access.db: a scope of no known name"};
  return std::optional(Inspection{"i" + std::to_string((*row)->integer(0)), *scope,
                                  base::Instant{(*row)->integer(2)},
                                  base::Instant{(*row)->integer(3)}});
}

base::Result<std::optional<Inspection>> inspection_now(Database& database, std::int64_t person,
                                                       base::Instant now) {
  auto given = given_inspection(database, person, now);
  if (given && *given && now < (*given)->from) return std::optional<Inspection>();
  return given;
}

base::Result<Inspection> Accounts::give_inspection(std::string_view id, const Inspection& wanted,
                                                   std::string_view by) {
  // Half a day more than the setting says: days are an hour longer where the clocks go back.
  const std::int64_t longest_ms = settings_.inspection_days_max * kDayOfMs + kDayOfMs / 2;
  const base::Instant now = clock_.now();
  if (wanted.until <= wanted.from || wanted.until <= now ||
      wanted.until.ms - wanted.from.ms > longest_ms) {
    return base::Error{base::ErrorCode::kForbidden,
                       "an inspector's access ends after today, not before it begins, and within " +
                           std::to_string(settings_.inspection_days_max) + " days"};
  }
  return store_->change([&](Database& db) -> base::Result<Inspection> {
    const auto found = find_person(db, id);
    if (!found) return found.error();
    if (!found->active || found->role != Role::kInspector) {
      return base::Error{base::ErrorCode::kConflict, "that person is no active inspector"};
    }
    const std::int64_t number = *person_number(id);
    const auto before = end_standing(db, number, now);
    if (!before) return before.error();
    Inspection given = wanted;
    auto made = insert_inspection(db, number, wanted, person_number(by).value_or(0), now);
    if (!made) return made.error();
    given.id = *std::move(made);
    const auto ended = sessions_->end_all_of(db, number);
    if (!ended) return ended.error();
    const auto noted = note(db, by, id, "inspection-given", {std::nullopt, given.id});
    if (!noted) return noted.error();
    return given;
  });
}

base::Status<> Accounts::end_inspection(std::string_view id, std::string_view by) {
  const base::Instant now = clock_.now();
  return store_->change([&](Database& db) -> base::Status<> {
    const auto found = find_person(db, id);
    if (!found) return found.error();
    const std::int64_t number = *person_number(id);
    const auto standing = given_inspection(db, number, now);
    if (!standing) return standing.error();
    if (!*standing) return base::Done{};
    const auto done = end_standing(db, number, now);
    if (!done) return done.error();
    const auto ended = sessions_->end_all_of(db, number);
    if (!ended) return ended.error();
    return note(db, by, id, "inspection-ended", {std::nullopt, (*standing)->id});
  });
}

base::Result<std::optional<Inspection>> Accounts::inspection_of(std::string_view id) const {
  return store_->with([&](Database& db) {
    return given_inspection(db, person_number(id).value_or(0), clock_.now());
  });
}

}  // namespace benchwarden::access
