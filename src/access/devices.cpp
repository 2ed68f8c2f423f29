#include "access/devices.h"

#include <algorithm>
#include <cassert>
#include <utility>

#include "access/accounts.h"
#include "access/one_time_code.h"
#include "access/query.h"
#include "access/token.h"

namespace benchwarden::access {

using sqlite::Database;

namespace {

std::string device_id(std::int64_t number) { return "d" + std::to_string(number); }

base::Error not_paired() {
  return base::Error{base::ErrorCode::kForbidden, "no device is paired by that"};
}

base::Status<> check_device_name_is_free(Database& database, const std::string& name) {
  const auto same =
      first_row(database, "SELECT 1 FROM device WHERE ended_ms IS NULL AND name = ?1", {name});
  if (!same) return same.error();
  if (*same) {
    return base::Error{base::ErrorCode::kConflict,
                       "a paired device has the name '" + name + "'; accepted: another name"};
  }
  return base::Done{};
}

/// What the code that is being tried was made for.
struct Pairing {
  base::Instant ends_at;
  std::string name;
  std::int64_t made_by = 0;
};
base::Result<Pairing> read_pairing(Database& database) {
  const auto row = first_row(database, "SELECT ends_ms, name, made_by FROM pairing_code");
  if (!row) return row.error();
  assert(row->has_value());
  return Pairing{base::Instant{(*row)->integer(0)}, (*row)->text(1), (*row)->integer(2)};
}

/// A clock set back to before the code was made does not lengthen its time.
bool covers(const Pairing& pairing, std::int64_t length_ms, base::Instant now) {
  return pairing.ends_at.ms - length_ms <= now.ms && now < pairing.ends_at;
}

base::Result<NewDevice> insert_device(Database& database, const Pairing& pairing,
                                      base::Instant now) {
  NewDevice made{{"", pairing.name}, new_token()};
  const auto digest = token_digest(made.secret);
  assert(digest);
  const auto row =
      first_row(database,
                "INSERT INTO device (name, secret_hash, paired_ms, paired_by, "
                "last_seen_ms) VALUES (?1, ?2, ?3, ?4, ?3) RETURNING number",
                {made.device.name, Blob(base::as_bytes(*digest)), now.ms, pairing.made_by});
  if (!row) return row.error();
  assert(row->has_value());
  made.device.id = device_id((*row)->integer(0));
  return made;
}

ListedDevice read_device(const sqlite::Statement& row) {
  ListedDevice device{{device_id(row.integer(0)), row.text(1)},
                      base::Instant{row.integer(2)},
                      person_id(row.integer(3)),
                      base::Instant{row.integer(4)},
                      std::nullopt};
  if (!row.is_null(5)) device.ended_at = base::Instant{row.integer(5)};
  return device;
}

base::Result<std::vector<ListedDevice>> all_devices(Database& database) {
  auto rows = query(database,
                    "SELECT number, name, paired_ms, paired_by, last_seen_ms, ended_ms "
                    "FROM device ORDER BY number");
  if (!rows) return rows.error();
  std::vector<ListedDevice> devices;
  while (true) {
    const auto row = rows->step();
    if (!row) return row.error();
    if (!*row) return devices;
    devices.push_back(read_device(*rows));
  }
}

}  // namespace

base::Status<> drop_pairing_code_of(Database& database, std::int64_t person) {
  return run(database, "DELETE FROM pairing_code WHERE made_by = ?1", {person});
}

base::Result<NewPairing> Accounts::begin_pairing(const std::string& name, std::string_view by) {
  const auto named = check_name(name);
  if (!named) return named.error();
  const NewPairing made{new_code(), base::Instant{clock_.now().ms + settings_.pairing_ms}};
  const std::string mark = code_mark(pepper_, kPairingCode, made.code);
  return store_->change([&](Database& db) -> base::Result<NewPairing> {
    const auto maker = find_person(db, by);
    if (!maker) return maker.error();
    if (!maker->active) return base::Error{base::ErrorCode::kNotFound, "that person is not active"};
    const auto free = check_device_name_is_free(db, name);
    if (!free) return free.error();
    const auto stored = run(db,
                            "INSERT OR REPLACE INTO pairing_code (only_row, code_hash, "
                            "tries_left, ends_ms, name, made_by) VALUES (1, ?1, ?2, ?3, ?4, ?5)",
                            {Blob(mark), static_cast<std::int64_t>(settings_.pairing_tries),
                             made.ends_at.ms, name, *person_number(by)});
    if (!stored) return stored.error();
    return made;
  });
}

base::Result<NewDevice> Accounts::pair_device(const std::string& code) {
  const auto paired = store_->change([&](Database& db) { return try_to_pair(db, code); });
  if (!paired) return paired.error();
  if (*paired) return **paired;
  return base::Error{base::ErrorCode::kForbidden, "wrong, used or old pairing code"};
}

// None, and not an error, where the code does not fit: the try it cost is to be kept.
base::Result<std::optional<NewDevice>> Accounts::try_to_pair(Database& database,
                                                             const std::string& code) {
  const base::Instant now = clock_.now();
  const auto checked = check_code(database, pepper_, kPairingCode, code);
  if (!checked) return checked.error();
  if (*checked != CodeCheck::kRight) return std::optional<NewDevice>();
  const auto pairing = read_pairing(database);
  if (!pairing) return pairing.error();
  const auto dropped = drop_code(database, kPairingCode);
  if (!dropped) return dropped.error();
  if (!covers(*pairing, settings_.pairing_ms, now)) return std::optional<NewDevice>();
  auto made = insert_device(database, *pairing, now);
  if (!made) return made.error();
  const std::string by = person_id(pairing->made_by);
  const auto noted = note(database, by, by, "device-paired", {made->device.name, made->device.id});
  if (!noted) return noted.error();
  return std::optional<NewDevice>(*std::move(made));
}

base::Result<Device> Accounts::device(std::string_view secret) const {
  const auto digest = token_digest(secret);
  if (!digest) return not_paired();
  const std::int64_t now = clock_.now().ms;
  return store_->with([&](Database& db) -> base::Result<Device> {
    std::int64_t number = 0;
    std::int64_t last_seen = 0;
    Device found;
    {
      const auto row =
          first_row(db, "SELECT number, name, last_seen_ms FROM device WHERE secret_hash = ?1",
                    {Blob(base::as_bytes(*digest))});
      if (!row) return row.error();
      if (!*row) return not_paired();
      number = (*row)->integer(0);
      found = {device_id(number), (*row)->text(1)};
      last_seen = (*row)->integer(2);
    }
    if (now - last_seen >= settings_.device_seen_every_ms) {
      // A full disk must not turn a tablet away: the device merely looks unused for longer.
      static_cast<void>(
          run(db, "UPDATE device SET last_seen_ms = ?2 WHERE number = ?1", {number, now}));
    }
    return found;
  });
}

base::Result<std::vector<ListedDevice>> Accounts::devices() const {
  return store_->with(all_devices);
}

base::Status<> Accounts::end_device(std::string_view id, std::string_view by) {
  const std::int64_t number = number_of('d', id).value_or(0);
  return store_->change([&](Database& db) -> base::Status<> {
    std::string name;
    {
      const auto row =
          first_row(db, "SELECT name, ended_ms FROM device WHERE number = ?1", {number});
      if (!row) return row.error();
      if (!*row) return base::Error{base::ErrorCode::kNotFound, "no device has that id"};
      if (!(*row)->is_null(1)) return base::Done{};
      name = (*row)->text(0);
    }
    const auto ended =
        run(db, "UPDATE device SET secret_hash = NULL, ended_ms = ?2 WHERE number = ?1",
            {number, clock_.now().ms});
    if (!ended) return ended.error();
    const auto signed_out = sessions_->end_all_on(db, number);
    if (!signed_out) return signed_out.error();
    return note(db, by, by, "device-ended", {name, id});
  });
}

base::Status<> Accounts::leave_out_devices(const std::vector<std::string>& taken) {
  std::int64_t largest = 0;
  for (const std::string& id : taken) {
    largest = std::max(largest, number_of('d', id).value_or(0));
  }
  return store_->change([&](Database& db) { return leave_out_numbers(db, "device", largest); });
}

}  // namespace benchwarden::access
