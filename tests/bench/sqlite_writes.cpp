// What SQLite alone takes for the same rows: bench_sqlite_writes BOOK.db ROWS_A_COMMIT SECONDS
// repeats the newest entry of a copy of a book under new ids and numbers, with its mentions, for so
// many seconds, and prints how many rows how long took. The tables, CHECKs and indexes are the
// book's and so is the way it commits; the triggers are dropped, and statements are prepared once.
// Only the transactions are timed: leaves and ids are made between them, hashes are no hashes.
#include <sqlite3.h>

#include <chrono>
#include <cstdint>
#include <cstdlib>
#include <iostream>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace {

using std::chrono::duration;
using std::chrono::steady_clock;

[[noreturn]] void give_up(const std::string& what) {
  std::cerr << "bench_sqlite_writes: " << what << "\n";
  std::exit(EXIT_FAILURE);  // NOLINT(concurrency-mt-unsafe): there is one thread
}

class Statement {
 public:
  Statement(sqlite3* database, const char* sql) : database_(database) {
    expect(sqlite3_prepare_v3(database, sql, -1, SQLITE_PREPARE_PERSISTENT, &statement_, nullptr),
           SQLITE_OK);
  }
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;
  ~Statement() { sqlite3_finalize(statement_); }

  void bind(int place, std::int64_t value) { sqlite3_bind_int64(statement_, place, value); }
  void bind_text(int place, const std::string& text) {
    sqlite3_bind_text(statement_, place, text.data(), static_cast<int>(text.size()), SQLITE_STATIC);
  }
  void bind_blob(int place, std::string_view bytes) {
    sqlite3_bind_blob(statement_, place, bytes.data(), static_cast<int>(bytes.size()),
                      SQLITE_STATIC);
  }
  void run() {
    expect(sqlite3_step(statement_), SQLITE_DONE);
    sqlite3_reset(statement_);
  }
  bool next() {
    const int result = sqlite3_step(statement_);
    if (result != SQLITE_ROW) expect(result, SQLITE_DONE);
    return result == SQLITE_ROW;
  }
  std::int64_t integer(int column) { return sqlite3_column_int64(statement_, column); }
  std::string bytes(int column) {
    const void* start = sqlite3_column_blob(statement_, column);
    const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_, column));
    return start == nullptr ? std::string() : std::string(static_cast<const char*>(start), size);
  }

 private:
  void expect(int found, int wanted) {
    if (found != wanted) give_up(sqlite3_errmsg(database_));
  }
  sqlite3* database_;
  sqlite3_stmt* statement_ = nullptr;
};

struct Row {
  std::int64_t seq = 0;
  std::string id;
  std::string kind;
  std::int64_t occurred_at_ms = 0;
  std::string subjects_hash;
  std::string leaf_hash;
  std::string interior;
  std::string leaf;
};

sqlite3* open_book(const char* path) {
  sqlite3* database = nullptr;
  if (sqlite3_open_v2(path, &database, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, nullptr) !=
      SQLITE_OK) {
    give_up(std::string(path) + " cannot be opened");
  }
  std::string drops;
  Statement triggers(database, "SELECT name FROM sqlite_schema WHERE type = 'trigger'");
  while (triggers.next()) drops += "DROP TRIGGER " + triggers.bytes(0) + ";";
  // As src/sqlite/database.cpp opens a book.
  const std::string start = drops +
                            "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;"
                            "PRAGMA journal_size_limit=16777216; PRAGMA foreign_keys=ON;"
                            "PRAGMA trusted_schema=OFF; PRAGMA recursive_triggers=ON;";
  char* fault = nullptr;
  if (sqlite3_exec(database, start.c_str(), nullptr, nullptr, &fault) != SQLITE_OK) give_up(fault);
  return database;
}

Row newest(sqlite3* database) {
  Statement query(database,
                  "SELECT seq, id, kind, occurred_at_ms, subjects_hash, leaf FROM entry "
                  "ORDER BY seq DESC LIMIT 1");
  if (!query.next()) give_up("the book is empty");
  return {query.integer(0),
          query.bytes(1),
          query.bytes(2),
          query.integer(3),
          query.bytes(4),
          std::string(32, '\0'),
          "",
          query.bytes(5)};
}

std::vector<std::string> subjects_of(sqlite3* database, std::int64_t seq) {
  Statement query(database, "SELECT subject FROM mention WHERE seq = ?");
  query.bind(1, seq);
  std::vector<std::string> subjects;
  while (query.next()) subjects.push_back(query.bytes(0));
  return subjects;
}

std::string hex_id(std::string_view id) {
  constexpr std::string_view kHex = "0123456789abcdef";
  std::string text;
  for (std::size_t i = 0; i < id.size(); ++i) {
    if (i == 4 || i == 6 || i == 8 || i == 10) text += '-';
    const auto byte = static_cast<unsigned char>(id[i]);
    text += kHex[byte >> 4U];
    text += kHex[byte & 15U];
  }
  return text;
}

void replace(std::string& text, const std::string& old, const std::string& wanted) {
  const std::size_t place = text.rfind(old);
  if (place == std::string::npos) give_up("the leaf lacks " + old);
  text.replace(place, old.size(), wanted);
}

/// Well mixed bits of a number (splitmix64): in the place of a hash, and of the random bits of ids.
std::uint64_t mixed(std::uint64_t number) {
  number += 0x9E3779B97F4A7C15ULL;
  number = (number ^ (number >> 30U)) * 0xBF58476D1CE4E5B9ULL;
  number = (number ^ (number >> 27U)) * 0x94D049BB133111EBULL;
  return number ^ (number >> 31U);
}

std::string mixed_bytes(std::uint64_t number, std::size_t size) {
  std::string bytes;
  for (std::uint64_t part = 0; bytes.size() < size; ++part) {
    const std::uint64_t bits = mixed(number * 64 + part);
    for (unsigned shift = 0; shift < 64 && bytes.size() < size; shift += 8) {
      bytes += static_cast<char>(bits >> shift & 0xFFU);
    }
  }
  return bytes;
}

/// Later than any id of the demo: as in a book, each new one comes at the end of the index.
constexpr std::uint64_t kNewerMs = 1ULL << 41U;

/// The entry after `last`, as long as the book's own would be.
Row next_of(const Row& last) {
  Row row = last;
  row.seq = last.seq + 1;
  const auto number = static_cast<std::uint64_t>(row.seq);
  row.id = mixed_bytes(number, 16);
  for (unsigned byte = 0; byte < 6; ++byte) {  // version 7 of RFC 9562: the time comes first
    row.id[byte] = static_cast<char>((kNewerMs + number) >> (40 - 8 * byte) & 0xFFU);
  }
  replace(row.leaf, hex_id(last.id), hex_id(row.id));
  replace(row.leaf, "\"seq\":" + std::to_string(last.seq), "\"seq\":" + std::to_string(row.seq));
  row.leaf_hash = mixed_bytes(number, 32);
  std::size_t full = 0;
  for (std::uint64_t rest = number; rest % 2 == 0; rest /= 2) ++full;
  row.interior = mixed_bytes(number, 32 * full);
  return row;
}

class Writer {
 public:
  Writer(sqlite3* database, std::vector<std::string> subjects)
      : subjects_(std::move(subjects)),
        begin_(database, "BEGIN IMMEDIATE"),
        commit_(database, "COMMIT"),
        entry_(database,
               "INSERT INTO entry (seq, id, kind, occurred_at_ms, subjects_hash, leaf_hash, "
               "interior, root, leaf) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)"),
        mention_(database, "INSERT INTO mention (subject, seq) VALUES (?, ?)") {}

  void commit(std::span<const Row> rows) {
    begin_.run();
    for (const Row& row : rows) insert(row, &row == &rows.back());
    commit_.run();
  }

 private:
  void insert(const Row& row, bool is_last) {
    entry_.bind(1, row.seq);
    entry_.bind_blob(2, row.id);
    entry_.bind_text(3, row.kind);
    entry_.bind(4, row.occurred_at_ms);
    entry_.bind_blob(5, row.subjects_hash);
    entry_.bind_blob(6, row.leaf_hash);
    entry_.bind_blob(7, row.interior);
    entry_.bind_blob(8, is_last ? std::string_view(row.leaf_hash) : std::string_view());
    entry_.bind_blob(9, row.leaf);
    entry_.run();
    for (const std::string& subject : subjects_) {
      mention_.bind_text(1, subject);
      mention_.bind(2, row.seq);
      mention_.run();
    }
  }

  std::vector<std::string> subjects_;
  Statement begin_;
  Statement commit_;
  Statement entry_;
  Statement mention_;
};

void write_for(double seconds, std::size_t batch, sqlite3* database) {
  Row last = newest(database);
  Writer writer(database, subjects_of(database, last.seq));
  std::vector<Row> rows(batch);
  std::uint64_t written = 0;
  duration<double> took{0};
  while (took.count() < seconds) {
    for (Row& row : rows) last = row = next_of(last);
    const auto start = steady_clock::now();
    writer.commit(rows);
    took += steady_clock::now() - start;
    written += rows.size();
  }
  std::cout << "{\"requests\":" << written << ",\"seconds\":" << took.count() << "}\n";
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 4) give_up("usage: bench_sqlite_writes BOOK.db ROWS_A_COMMIT SECONDS");
  const auto batch = std::strtoul(argv[2], nullptr, 10);
  const double seconds = std::strtod(argv[3], nullptr);
  if (batch < 1 || !(seconds > 0)) give_up("ROWS_A_COMMIT and SECONDS are numbers above 0");
  sqlite3* database = open_book(argv[1]);
  write_for(seconds, batch, database);
  sqlite3_close(database);
}
