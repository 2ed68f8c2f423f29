#include "sqlite/database.h"

#include <gtest/gtest.h>

#include <fstream>

#include "sqlite/temporary_folder.h"

namespace benchwarden::sqlite {
namespace {

using base::ErrorCode;

class DatabaseTest : public ::testing::Test {
 protected:
  [[nodiscard]] std::string path() const { return (folder_.path() / "test.db").string(); }
  [[nodiscard]] Database open(Mode mode = Mode::kReadWriteCreate) const {
    auto database = Database::open(path(), mode);
    EXPECT_TRUE(database.ok()) << database.error().detail;
    return *std::move(database);
  }
  static std::int64_t number(Database& database, std::string_view sql) {
    auto query = database.prepare(sql);
    EXPECT_TRUE(query.ok()) << query.error().detail;
    auto row = query->step();
    EXPECT_TRUE(row.ok() && *row) << sql;
    return query->integer(0);
  }
  static std::string text(Database& database, std::string_view sql) {
    auto query = database.prepare(sql);
    EXPECT_TRUE(query.ok()) << query.error().detail;
    auto row = query->step();
    EXPECT_TRUE(row.ok() && *row) << sql;
    return query->text(0);
  }
  testing::TemporaryFolder folder_;
};

TEST_F(DatabaseTest, OpensForFullDurability) {
  Database database = open();
  EXPECT_EQ(text(database, "PRAGMA journal_mode"), "wal");
  EXPECT_EQ(number(database, "PRAGMA synchronous"), 2);
  EXPECT_EQ(number(database, "PRAGMA foreign_keys"), 1);
  EXPECT_EQ(number(database, "PRAGMA trusted_schema"), 0);
  EXPECT_EQ(number(database, "PRAGMA busy_timeout"), 5000);
}

TEST_F(DatabaseTest, GivesBackWhatWasBound) {
  Database database = open();
  ASSERT_TRUE(database.execute("CREATE TABLE t (i INTEGER, s TEXT, b BLOB, n TEXT) STRICT").ok());
  const std::string blob("\0\x01\xFFz", 4);
  auto insertion = database.prepare("INSERT INTO t VALUES (?, ?, ?, ?)");
  ASSERT_TRUE(insertion.ok());
  ASSERT_TRUE(insertion->bind(1, std::int64_t{-9'007'199'254'740'993})
                  .bind(2, std::string_view("Ölfaß"))
                  .bind_blob(3, blob)
                  .bind_null(4)
                  .run()
                  .ok());
  auto query = database.prepare("SELECT i, s, b, n, typeof(b) FROM t");
  ASSERT_TRUE(query.ok());
  ASSERT_TRUE(*query->step());
  EXPECT_EQ(query->integer(0), -9'007'199'254'740'993);
  EXPECT_EQ(query->text(1), "Ölfaß");
  EXPECT_EQ(query->blob(2), blob);
  EXPECT_TRUE(query->is_null(3));
  EXPECT_FALSE(query->is_null(2));
  EXPECT_FALSE(*query->step());
}

TEST_F(DatabaseTest, ReadsTheBeginningOfABlob) {
  Database database = open();
  ASSERT_TRUE(database.execute("CREATE TABLE t (b BLOB NOT NULL) STRICT").ok());
  ASSERT_TRUE(database.execute("INSERT INTO t VALUES (x'0102030405'), (x'')").ok());
  EXPECT_EQ(*database.blob_beginning("t", "b", 1, 3), "\x01\x02\x03");
  EXPECT_EQ(database.blob_beginning("t", "b", 1, 9)->size(), 5U);
  EXPECT_EQ(*database.blob_beginning("t", "b", 2, 3), "");
  EXPECT_EQ(database.blob_beginning("t", "b", 3, 3).error().code, ErrorCode::kNotFound);
}

TEST_F(DatabaseTest, TellsAnEmptyBlobFromNothing) {
  Database database = open();
  ASSERT_TRUE(database.execute("CREATE TABLE t (b BLOB NOT NULL) STRICT").ok());
  auto insertion = database.prepare("INSERT INTO t VALUES (?)");
  ASSERT_TRUE(insertion->bind_blob(1, std::string_view()).run().ok());
  EXPECT_EQ(number(database, "SELECT count(*) FROM t WHERE length(b) = 0"), 1);
}

TEST_F(DatabaseTest, AStatementIsReusedWithoutItsOldBindings) {
  Database database = open();
  ASSERT_TRUE(database.execute("CREATE TABLE t (a INTEGER, b INTEGER) STRICT").ok());
  auto insertion = database.prepare("INSERT INTO t VALUES (?, ?)");
  ASSERT_TRUE(insertion->bind(1, std::int64_t{1}).bind(2, std::int64_t{2}).run().ok());
  ASSERT_TRUE(insertion->bind(1, std::int64_t{3}).run().ok());
  EXPECT_EQ(number(database, "SELECT count(*) FROM t WHERE a = 3 AND b IS NULL"), 1);
}

TEST_F(DatabaseTest, NamesABrokenConstraintAConflict) {
  Database database = open();
  ASSERT_TRUE(database.execute("CREATE TABLE t (a INTEGER UNIQUE) STRICT").ok());
  ASSERT_TRUE(database.execute("INSERT INTO t VALUES (1)").ok());
  auto insertion = database.prepare("INSERT INTO t VALUES (?)");
  auto repeated = insertion->bind(1, std::int64_t{1}).run();
  ASSERT_FALSE(repeated.ok());
  EXPECT_EQ(repeated.error().code, ErrorCode::kConflict);
  auto mistyped = insertion->bind(1, std::string_view("one")).run();
  ASSERT_FALSE(mistyped.ok());
  EXPECT_EQ(mistyped.error().code, ErrorCode::kConflict);
  EXPECT_TRUE(insertion->bind(1, std::int64_t{2}).run().ok()) << "usable after a failure";
}

TEST_F(DatabaseTest, TellsABindingThatFailedAtTheNextStep) {
  Database database = open();
  auto query = database.prepare("SELECT ?");
  auto row = query->bind(7, std::int64_t{1}).step();
  ASSERT_FALSE(row.ok());
  query->reset();
  EXPECT_TRUE(query->bind(1, std::int64_t{1}).step().ok());
}

TEST_F(DatabaseTest, NamesWrongSqlInvalid) {
  Database database = open();
  auto query = database.prepare("SELECT nothing FROM nowhere");
  ASSERT_FALSE(query.ok());
  EXPECT_EQ(query.error().code, ErrorCode::kInvalid);
}

TEST_F(DatabaseTest, NamesAFileThatIsNoDatabaseDamaged) {
  std::ofstream(path()) << std::string(4096, 'x');
  auto database = Database::open(path(), Mode::kReadWriteCreate);
  ASSERT_FALSE(database.ok());
  EXPECT_EQ(database.error().code, ErrorCode::kDamaged);
}

TEST_F(DatabaseTest, ReadOnlyNeitherCreatesNorWrites) {
  auto missing = Database::open(path(), Mode::kReadOnly);
  ASSERT_FALSE(missing.ok());
  EXPECT_EQ(missing.error().code, ErrorCode::kUnavailable);
  Database writer = open();
  ASSERT_TRUE(writer.execute("CREATE TABLE t (a INTEGER) STRICT").ok());
  Database reader = open(Mode::kReadOnly);
  auto written = reader.execute("INSERT INTO t VALUES (1)");
  ASSERT_FALSE(written.ok());
  EXPECT_EQ(written.error().code, ErrorCode::kUnavailable);
  EXPECT_EQ(number(reader, "SELECT count(*) FROM t"), 0);
}

TEST_F(DatabaseTest, ATransactionLeftUncommittedRollsBack) {
  Database database = open();
  ASSERT_TRUE(database.execute("CREATE TABLE t (a INTEGER) STRICT").ok());
  {
    auto transaction = Transaction::begin(database);
    ASSERT_TRUE(transaction.ok());
    ASSERT_TRUE(database.execute("INSERT INTO t VALUES (1)").ok());
  }
  EXPECT_EQ(number(database, "SELECT count(*) FROM t"), 0);
  {
    auto transaction = Transaction::begin(database);
    ASSERT_TRUE(database.execute("INSERT INTO t VALUES (2)").ok());
    ASSERT_TRUE(transaction->commit().ok());
  }
  EXPECT_EQ(number(database, "SELECT a FROM t"), 2);
}

TEST_F(DatabaseTest, ASecondWriterIsUnavailableAfterItsWaitingTime) {
  Database first = open();
  Database second = open();
  ASSERT_TRUE(second.set_busy_timeout_ms(20).ok());
  auto held = Transaction::begin(first);
  ASSERT_TRUE(held.ok());
  auto refused = Transaction::begin(second);
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, ErrorCode::kUnavailable);
  ASSERT_TRUE(held->commit().ok());
  EXPECT_TRUE(Transaction::begin(second).ok());
}

TEST_F(DatabaseTest, StepsOfTheSchemaRunOnceAndInOrder) {
  Database database = open();
  const std::string_view one = "CREATE TABLE t (a INTEGER) STRICT";
  const std::string_view two = "INSERT INTO t VALUES (1)";
  ASSERT_TRUE(migrate(database, {one}).ok());
  ASSERT_TRUE(migrate(database, {one, two}).ok());
  ASSERT_TRUE(migrate(database, {one, two}).ok());
  EXPECT_EQ(number(database, "SELECT count(*) FROM t"), 1);
  EXPECT_EQ(number(database, "PRAGMA user_version"), 2);
}

TEST_F(DatabaseTest, AStepThatFailsLeavesNothingOfItself) {
  Database database = open();
  auto migrated = migrate(database, {"CREATE TABLE t (a INTEGER) STRICT",
                                     "INSERT INTO t VALUES (1); INSERT INTO nowhere VALUES (1)"});
  ASSERT_FALSE(migrated.ok());
  EXPECT_NE(migrated.error().detail.find("schema step 2"), std::string::npos);
  EXPECT_EQ(number(database, "PRAGMA user_version"), 1);
  EXPECT_EQ(number(database, "SELECT count(*) FROM t"), 0);
}

TEST_F(DatabaseTest, ANewerSchemaIsRefused) {
  Database database = open();
  ASSERT_TRUE(database.execute("PRAGMA user_version=3").ok());
  auto migrated = migrate(database, {"CREATE TABLE t (a INTEGER) STRICT"});
  ASSERT_FALSE(migrated.ok());
  EXPECT_EQ(migrated.error().code, ErrorCode::kConflict);
  EXPECT_EQ(number(database, "SELECT count(*) FROM sqlite_schema"), 0);
}

}  // namespace
}  // namespace benchwarden::sqlite
