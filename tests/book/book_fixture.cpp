#include "book/book_fixture.h"

#include <vector>

#include "sqlite/database.h"

namespace benchwarden::testing {
namespace {

sqlite::Database open_database(const std::filesystem::path& folder) {
  auto database =
      sqlite::Database::open((folder / "book.db").string(), sqlite::Mode::kReadWriteCreate);
  EXPECT_TRUE(database.ok()) << database.error().detail;
  return *std::move(database);
}

std::vector<std::string> texts(sqlite::Database& database, const std::string& sql) {
  auto query = database.prepare(sql);
  EXPECT_TRUE(query.ok()) << query.error().detail;
  std::vector<std::string> found;
  while (*query->step()) found.push_back(query->text(0));
  return found;
}

void must_run(sqlite::Database& database, const std::string& sql) {
  const auto done = database.execute(sql);
  EXPECT_TRUE(done.ok()) << done.error().detail;
}

}  // namespace

std::optional<entries::FieldMeaning> SmallVocabulary::meaning(std::string_view field) const {
  if (field == "volume_ml") {
    return entries::FieldMeaning{entries::FieldType::kQuantity, quantities::find_unit("ml")};
  }
  if (field == "container") return entries::FieldMeaning{entries::FieldType::kId, nullptr};
  if (field == "note") return entries::FieldMeaning{entries::FieldType::kText, nullptr};
  return std::nullopt;
}

base::Uuid id_of(std::uint64_t number) {
  base::Uuid id;
  id.bytes[6] = 0x70;
  id.bytes[8] = 0x80;
  for (std::size_t i = 0; i < 6; ++i) {
    id.bytes[15 - i] = static_cast<std::uint8_t>(number >> (8 * i));
  }
  return id;
}

book::Draft drain(std::uint64_t number) {
  book::Draft draft;
  draft.content.id = id_of(number);
  draft.content.kind = "oil-drained";
  const auto minutes = static_cast<std::int64_t>(number);
  draft.content.occurred_at = {{1'794'000'000'000 + minutes * 60'000}, 60};
  draft.content.fields = {{"volume_ml", quantities::Quantity{base::Decimal{minutes * 1000},
                                                             quantities::find_unit("ml")}},
                          {"container", entries::Id{"w1"}}};
  draft.signature.person = "p1";
  draft.signature.device = "tablet-1";
  draft.subjects = {"container/w1"};
  return draft;
}

std::uint64_t number_of(const entries::Entry& entry) {
  const auto* volume =
      entries::find_field_as<quantities::Quantity>(entry.content.fields, "volume_ml");
  return volume == nullptr ? 0 : static_cast<std::uint64_t>(volume->value.thousandths / 1000);
}

void tamper(const std::filesystem::path& folder, const std::string& sql) {
  sqlite::Database database = open_database(folder);
  const std::string triggers = " FROM sqlite_schema WHERE type = 'trigger'";
  const auto texts_of_triggers = texts(database, "SELECT sql" + triggers);
  ASSERT_FALSE(texts_of_triggers.empty());
  for (const std::string& name : texts(database, "SELECT name" + triggers)) {
    must_run(database, "DROP TRIGGER " + name);
  }
  must_run(database, sql);
  for (const std::string& text : texts_of_triggers) must_run(database, text);
}

bool run_sql(const std::filesystem::path& folder, const std::string& sql) {
  return open_database(folder).execute(sql).ok();
}

std::int64_t sql_number(const std::filesystem::path& folder, const std::string& sql) {
  sqlite::Database database = open_database(folder);
  auto query = database.prepare(sql);
  EXPECT_TRUE(query.ok()) << query.error().detail;
  EXPECT_TRUE(*query->step());
  return query->integer(0);
}

base::Result<std::unique_ptr<book::Book>> BookTest::try_open() {
  return book::Book::open(folder(), vocabulary_, clock_);
}

void BookTest::open() {
  auto opened = try_open();
  ASSERT_TRUE(opened.ok()) << opened.error().detail;
  book_ = *std::move(opened);
}

void BookTest::append(std::uint64_t from, std::uint64_t to) {
  for (std::uint64_t number = from; number <= to; ++number) {
    auto receipt = book_->append(drain(number));
    ASSERT_TRUE(receipt.ok()) << receipt.error().detail;
  }
}

book::VerifyReport BookTest::verified() {
  auto report = book::verify(folder(), vocabulary_);
  EXPECT_TRUE(report.ok()) << report.error().detail;
  return *std::move(report);
}

}  // namespace benchwarden::testing
