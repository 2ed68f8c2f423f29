#include "access/journal.h"

#include "access/people.h"
#include "access/query.h"

namespace benchwarden::access {

// So many of each reason: what a stranger can make without end pushes nothing else out.
base::Status<> note_refusal(sqlite::Database& database, const NewRefusal& refusal, int kept) {
  const Value who = refusal.person ? Value(*refusal.person) : Value(Null{});
  const auto added =
      run(database, "INSERT INTO refusal (at_ms, person, reason, address) VALUES (?1, ?2, ?3, ?4)",
          {refusal.at.ms, who, refusal.reason, refusal.address});
  if (!added) return added.error();
  return run(database,
             "DELETE FROM refusal WHERE number IN (SELECT number FROM refusal WHERE reason = ?1 "
             "ORDER BY number DESC LIMIT -1 OFFSET ?2)",
             {refusal.reason, static_cast<std::int64_t>(kept)});
}

// Numbers have no gaps between the oldest kept and the newest, here and below, so counting down
// from the newest counts rows.
base::Status<> note_sign_in(sqlite::Database& database, base::Instant at, std::int64_t person,
                            Place place, int kept) {
  const auto added = run(database, "INSERT INTO sign_in (at_ms, person, place) VALUES (?1, ?2, ?3)",
                         {at.ms, person, place_name(place)});
  if (!added) return added.error();
  const auto counted = count_access(database, at, "sign-in");
  if (!counted) return counted.error();
  return run(database, "DELETE FROM sign_in WHERE number <= (SELECT max(number) FROM sign_in) - ?1",
             {static_cast<std::int64_t>(kept)});
}

base::Status<> note_change(sqlite::Database& database, const NewChange& change, int kept) {
  const std::string entry = base::format_uuid(base::new_uuid7(change.at));
  const auto value_of = [](const auto& text) { return text ? Value(*text) : Value(Null{}); };
  const auto added =
      run(database,
          "INSERT INTO change (at_ms, done_by, person, what, device, thing, entry_id, told) "
          "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, 0)",
          {change.at.ms, change.by, change.person, change.what, value_of(change.about.name),
           value_of(change.about.thing), entry});
  if (!added) return added.error();
  return run(
      database,
      "DELETE FROM change WHERE told = 1 AND number <= (SELECT max(number) FROM change) - ?1",
      {static_cast<std::int64_t>(kept)});
}

base::Result<std::vector<Refusal>> all_refusals(sqlite::Database& database) {
  auto rows =
      query(database, "SELECT at_ms, person, reason, address FROM refusal ORDER BY number DESC");
  if (!rows) return rows.error();
  std::vector<Refusal> refusals;
  while (true) {
    const auto row = rows->step();
    if (!row) return row.error();
    if (!*row) return refusals;
    Refusal refusal{base::Instant{rows->integer(0)}, std::nullopt, rows->text(2), rows->text(3)};
    if (!rows->is_null(1)) refusal.person = person_id(rows->integer(1));
    refusals.push_back(std::move(refusal));
  }
}

base::Result<std::vector<Change>> all_changes(sqlite::Database& database) {
  auto rows = query(database,
                    "SELECT at_ms, done_by, person, what, device, thing FROM change "
                    "ORDER BY number DESC");
  if (!rows) return rows.error();
  std::vector<Change> changes;
  while (true) {
    const auto row = rows->step();
    if (!row) return row.error();
    if (!*row) return changes;
    Change change{base::Instant{rows->integer(0)},
                  rows->text(1),
                  person_id(rows->integer(2)),
                  rows->text(3),
                  std::nullopt,
                  std::nullopt};
    if (!rows->is_null(4)) change.device = rows->text(4);
    if (!rows->is_null(5)) change.thing = rows->text(5);
    changes.push_back(std::move(change));
  }
}

}  // namespace benchwarden::access
