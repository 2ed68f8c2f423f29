#include <algorithm>
#include <array>
#include <cassert>
#include <utility>

#include "access/accounts.h"
#include "access/query.h"
#include "access/token.h"

namespace benchwarden::access {

using sqlite::Database;

namespace {

constexpr std::int64_t kDayMs = 86'400'000;
constexpr std::array<std::pair<TokenScope, std::string_view>, 2> kScopeNames{{
    {TokenScope::kReads, "reads"},
    {TokenScope::kReadsAndEntries, "reads-and-entries"},
}};
constexpr const char* kTokenColumns =
    "SELECT script_token.number, script_token.name, scope, made_by, made_ms, ends_ms, "
    "last_used_ms, "
    "ended_ms FROM script_token ";

std::string token_id(std::int64_t number) { return "t" + std::to_string(number); }

base::Error no_token() {
  return base::Error{base::ErrorCode::kForbidden, "no such token, or it has ended"};
}

base::Result<ScriptToken> read_token(const sqlite::Statement& row) {
  const auto scope = token_scope_from_name(row.text(2));
  if (!scope) return base::Error{base::ErrorCode::kDamaged, "access.db: a scope of no known name"};
  ScriptToken token{token_id(row.integer(0)),
                    row.text(1),
                    *scope,
                    person_id(row.integer(3)),
                    base::Instant{row.integer(4)},
                    base::Instant{row.integer(5)}};
  if (!row.is_null(6)) token.last_used_at = base::Instant{row.integer(6)};
  if (!row.is_null(7)) token.ended_at = base::Instant{row.integer(7)};
  return token;
}

base::Status<> check_new_token(Database& database, const std::string& name, std::string_view by,
                               base::Instant now) {
  const auto maker = find_person(database, by);
  if (!maker) return maker.error();
  const auto same = first_row(
      database, "SELECT 1 FROM script_token WHERE name = ?1 AND ended_ms IS NULL AND ends_ms > ?2",
      {name, now.ms});
  if (!same) return same.error();
  if (*same) return base::Error{base::ErrorCode::kConflict, "a token of that name is good still"};
  return base::Done{};
}

base::Result<std::vector<ScriptToken>> all_tokens(Database& database) {
  auto rows = query(database, std::string(kTokenColumns) + "ORDER BY number DESC");
  if (!rows) return rows.error();
  std::vector<ScriptToken> tokens;
  while (true) {
    const auto row = rows->step();
    if (!row) return row.error();
    if (!*row) return tokens;
    auto token = read_token(*rows);
    if (!token) return token.error();
    tokens.push_back(*std::move(token));
  }
}

}  // namespace

std::string_view token_scope_name(TokenScope scope) {
  const auto* const found = std::find_if(kScopeNames.begin(), kScopeNames.end(),
                                         [scope](const auto& pair) { return pair.first == scope; });
  assert(found != kScopeNames.end());
  return found->second;
}

std::optional<TokenScope> token_scope_from_name(std::string_view name) {
  for (const auto& [scope, text] : kScopeNames) {
    if (text == name) return scope;
  }
  return std::nullopt;
}

base::Result<NewScriptToken> Accounts::make_token(const std::string& name, TokenScope scope,
                                                  base::Instant ends_at, std::string_view by) {
  const base::Instant now = clock_.now();
  if (ends_at <= now || ends_at.ms - now.ms > settings_.token_days_max * kDayMs) {
    return base::Error{base::ErrorCode::kForbidden, "a token ends after today and within " +
                                                        std::to_string(settings_.token_days_max) +
                                                        " days"};
  }
  const auto named = check_name(name);
  if (!named) return named.error();
  NewScriptToken made;
  made.secret = std::string(kScriptTokenStart) + new_token();
  made.token = {"", name, scope, std::string(by), now, ends_at};
  const base::Sha256Digest hash = base::sha256(made.secret);
  return store_->change([&](Database& db) -> base::Result<NewScriptToken> {
    const auto allowed = check_new_token(db, name, by, now);
    if (!allowed) return allowed.error();
    {
      const auto row =
          first_row(db,
                    "INSERT INTO script_token (name, token_hash, scope, made_by, made_ms, ends_ms) "
                    "VALUES (?1, ?2, ?3, ?4, ?5, ?6) RETURNING number",
                    {name, Blob(base::as_bytes(hash)), token_scope_name(scope), *person_number(by),
                     now.ms, made.token.ends_at.ms});
      if (!row) return row.error();
      assert(row->has_value());
      made.token.id = token_id((*row)->integer(0));
    }
    const auto noted = note(db, by, by, "token-made", {name, made.token.id});
    if (!noted) return noted.error();
    return made;
  });
}

base::Result<std::vector<ScriptToken>> Accounts::tokens() const { return store_->with(all_tokens); }

base::Status<> Accounts::end_token(std::string_view id, std::string_view by) {
  const std::int64_t number = number_of('t', id).value_or(0);
  return store_->change([&](Database& db) -> base::Status<> {
    std::string name;
    {
      const auto row =
          first_row(db, "SELECT name, ended_ms FROM script_token WHERE number = ?1", {number});
      if (!row) return row.error();
      if (!*row) return base::Error{base::ErrorCode::kNotFound, "no token has that id"};
      if (!(*row)->is_null(1)) return base::Done{};
      name = (*row)->text(0);
    }
    const auto ended = run(db, "UPDATE script_token SET ended_ms = ?2 WHERE number = ?1",
                           {number, clock_.now().ms});
    if (!ended) return ended.error();
    return note(db, by, by, "token-ended", {name, id});
  });
}

// What is looked up is the hash: how long that takes tells nothing of how near a guess came.
base::Result<Session> Accounts::script_session(std::string_view secret) const {
  const base::Sha256Digest hash = base::sha256(secret);
  const base::Instant now = clock_.now();
  return store_->with([&](Database& db) -> base::Result<Session> {
    Session session;
    std::int64_t number = 0;
    std::int64_t last_used = 0;
    {
      const auto row = first_row(
          db,
          "SELECT script_token.number, scope, ends_ms, last_used_ms, made_by, person.name, role "
          "FROM script_token JOIN person ON person.number = made_by "
          "WHERE token_hash = ?1 AND ended_ms IS NULL AND ends_ms > ?2 AND made_ms <= ?2 "
          "AND active = 1",
          {Blob(base::as_bytes(hash)), now.ms});
      if (!row) return row.error();
      if (!*row) return no_token();
      const auto role = role_from_name((*row)->text(6));
      const auto scope = token_scope_from_name((*row)->text(1));
      if (!role || !scope) {
        return base::Error{base::ErrorCode::kDamaged, "access.db: a role or scope of no name"};
      }
      number = (*row)->integer(0);
      last_used = (*row)->is_null(3) ? 0 : (*row)->integer(3);
      session.person = person_id((*row)->integer(4));
      session.name = (*row)->text(5);
      session.role = *role;
      session.expires_at = base::Instant{(*row)->integer(2)};
      session.script = *scope;
    }
    if (now.ms - last_used >= settings_.device_seen_every_ms) {
      // A full disk must not stop a script: the token merely looks unused for longer.
      static_cast<void>(
          run(db, "UPDATE script_token SET last_used_ms = ?2 WHERE number = ?1", {number, now.ms}));
    }
    return session;
  });
}

}  // namespace benchwarden::access
