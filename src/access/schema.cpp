#include "access/schema.h"

namespace benchwarden::access {
namespace {

// sign_in_guard.person 0 stands for all unknown ids, so that a sign-in costs the same writes
// whether or not the person exists. It is why that column has no foreign key.
constexpr std::string_view kFirstSchema = R"sql(
CREATE TABLE person (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL,
  role TEXT NOT NULL CHECK (role IN ('technician', 'manager', 'inspector')),
  competent INTEGER NOT NULL DEFAULT 0 CHECK (competent IN (0, 1)),
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1)),
  pin_hash TEXT NOT NULL,
  pin_serial INTEGER NOT NULL DEFAULT 1
) STRICT;

CREATE TABLE sign_in_guard (
  person INTEGER PRIMARY KEY,
  failures INTEGER NOT NULL CHECK (failures >= 0),
  last_failed_ms INTEGER NOT NULL
) STRICT;

CREATE TABLE session (
  token_hash BLOB PRIMARY KEY CHECK (length(token_hash) = 32),
  person INTEGER NOT NULL REFERENCES person (number),
  ends_ms INTEGER NOT NULL,
  idle_ms INTEGER NOT NULL CHECK (idle_ms > 0),
  last_seen_ms INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX session_of_person ON session (person);

CREATE TABLE setup_code (
  only_row INTEGER PRIMARY KEY CHECK (only_row = 1),
  code_hash BLOB NOT NULL CHECK (length(code_hash) = 32),
  tries_left INTEGER NOT NULL CHECK (tries_left > 0)
) STRICT;

CREATE TABLE refusal (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  at_ms INTEGER NOT NULL,
  person INTEGER REFERENCES person (number),
  reason TEXT NOT NULL CHECK (reason IN ('wrong-pin', 'locked-out', 'unknown-person'))
) STRICT;

CREATE TABLE change (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  at_ms INTEGER NOT NULL,
  done_by TEXT NOT NULL,
  person INTEGER NOT NULL REFERENCES person (number),
  what TEXT NOT NULL
) STRICT;
)sql";

// Wrong PINs are counted by address where the person has signed in from it, and together (address
// "") where not, so that a stranger's tries do not shut the person out everywhere.
constexpr std::string_view kGuardByAddress = R"sql(
CREATE TABLE guard_by_address (
  person INTEGER NOT NULL,
  address TEXT NOT NULL,
  failures INTEGER NOT NULL CHECK (failures >= 0),
  last_ms INTEGER NOT NULL,
  PRIMARY KEY (person, address)
) STRICT, WITHOUT ROWID;
INSERT INTO guard_by_address SELECT person, '', failures, last_failed_ms FROM sign_in_guard;
DROP TABLE sign_in_guard;
ALTER TABLE guard_by_address RENAME TO sign_in_guard;
)sql";

constexpr std::string_view kCalendarFeed = R"sql(
CREATE TABLE calendar_feed (
  person INTEGER PRIMARY KEY REFERENCES person (number),
  secret_hash BLOB NOT NULL UNIQUE CHECK (length(secret_hash) = 32),
  made_ms INTEGER NOT NULL
) STRICT;
)sql";

// The register says for what a person is competent, until when, and by what evidence.
constexpr std::string_view kNoCompetence = "ALTER TABLE person DROP COLUMN competent;";

// A device whose pairing has ended stays, without its secret: its id stands in the book.
constexpr std::string_view kDevices = R"sql(
CREATE TABLE device (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL,
  secret_hash BLOB UNIQUE CHECK (length(secret_hash) = 32),
  paired_ms INTEGER NOT NULL,
  paired_by INTEGER NOT NULL REFERENCES person (number),
  last_seen_ms INTEGER NOT NULL,
  ended_ms INTEGER,
  CHECK ((secret_hash IS NULL) = (ended_ms IS NOT NULL))
) STRICT;

CREATE TABLE pairing_code (
  only_row INTEGER PRIMARY KEY CHECK (only_row = 1),
  code_hash BLOB NOT NULL CHECK (length(code_hash) = 32),
  tries_left INTEGER NOT NULL CHECK (tries_left > 0),
  ends_ms INTEGER NOT NULL,
  name TEXT NOT NULL,
  made_by INTEGER NOT NULL REFERENCES person (number)
) STRICT;

ALTER TABLE change ADD COLUMN device TEXT;
)sql";

// Sessions have ids and a place, so that they can be listed and ended; whoever was signed in signs
// in again.
constexpr std::string_view kListedSessions = R"sql(
DROP TABLE session;
CREATE TABLE session (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  token_hash BLOB NOT NULL UNIQUE CHECK (length(token_hash) = 32),
  person INTEGER NOT NULL REFERENCES person (number),
  place TEXT NOT NULL CHECK (place IN ('machine', 'device', 'elsewhere')),
  device INTEGER REFERENCES device (number),
  began_ms INTEGER NOT NULL,
  confirmed_ms INTEGER NOT NULL,
  ends_ms INTEGER NOT NULL,
  idle_ms INTEGER NOT NULL CHECK (idle_ms > 0),
  last_seen_ms INTEGER NOT NULL
) STRICT;
CREATE INDEX session_of_person ON session (person);

ALTER TABLE change ADD COLUMN thing TEXT;
)sql";

constexpr std::string_view kPassphrases = "ALTER TABLE person ADD COLUMN passphrase_hash TEXT;";

constexpr std::string_view kScriptTokens = R"sql(
CREATE TABLE script_token (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL,
  token_hash BLOB NOT NULL UNIQUE CHECK (length(token_hash) = 32),
  scope TEXT NOT NULL CHECK (scope IN ('reads', 'reads-and-entries')),
  made_by INTEGER NOT NULL REFERENCES person (number),
  made_ms INTEGER NOT NULL,
  ends_ms INTEGER NOT NULL,
  last_used_ms INTEGER,
  ended_ms INTEGER
) STRICT;
)sql";

// Inspectors that were entered before have no access until a manager gives it. `given_by` 0: the
// machine.
constexpr std::string_view kInspections = R"sql(
CREATE TABLE inspection (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  person INTEGER NOT NULL REFERENCES person (number),
  scope TEXT NOT NULL CHECK (scope IN ('everything', 'waste', 'cylinders-and-tools')),
  from_ms INTEGER NOT NULL,
  until_ms INTEGER NOT NULL CHECK (until_ms > from_ms),
  given_by INTEGER NOT NULL,
  given_ms INTEGER NOT NULL,
  ended_ms INTEGER
) STRICT;
CREATE INDEX inspection_of_person ON inspection (person);
)sql";

// The logs of sign-ins and refusals, and how often each happened. Changes of before are not told.
constexpr std::string_view kAccessLog = R"sql(
CREATE TABLE refusal_log (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  at_ms INTEGER NOT NULL,
  person INTEGER REFERENCES person (number),
  reason TEXT NOT NULL,
  address TEXT NOT NULL DEFAULT ''
) STRICT;
INSERT INTO refusal_log (number, at_ms, person, reason)
  SELECT number, at_ms, person, reason FROM refusal;
DROP TABLE refusal;
ALTER TABLE refusal_log RENAME TO refusal;

CREATE TABLE sign_in (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  at_ms INTEGER NOT NULL,
  person INTEGER NOT NULL REFERENCES person (number),
  place TEXT NOT NULL
) STRICT;

CREATE TABLE access_count (
  slot_ms INTEGER NOT NULL,
  what TEXT NOT NULL,
  times INTEGER NOT NULL,
  PRIMARY KEY (slot_ms, what)
) STRICT, WITHOUT ROWID;

ALTER TABLE change ADD COLUMN entry_id TEXT;
ALTER TABLE change ADD COLUMN told INTEGER NOT NULL DEFAULT 1 CHECK (told IN (0, 1));
CREATE INDEX change_untold ON change (number) WHERE told = 0;
)sql";

constexpr std::string_view kRefusalsByReason =
    "CREATE INDEX refusal_of_reason ON refusal (reason, number);";

}  // namespace

const std::vector<std::string_view>& schema_steps() {
  static const std::vector<std::string_view> steps{kFirstSchema,  kGuardByAddress,  kCalendarFeed,
                                                   kNoCompetence, kDevices,         kListedSessions,
                                                   kPassphrases,  kScriptTokens,    kInspections,
                                                   kAccessLog,    kRefusalsByReason};
  return steps;
}

}  // namespace benchwarden::access
