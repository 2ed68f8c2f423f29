#include "workshop/backup.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "book/export_files.h"
#include "workshop/random_entries.h"
#include "workshop/test_workshop.h"
#include "workshop/upkeep.h"

namespace benchwarden::workshop {
namespace {

namespace fs = std::filesystem;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::UnorderedElementsAre;

std::string text_in(const fs::path& file) {
  auto bytes = book::read_exported(file);
  if (!bytes) ADD_FAILURE() << bytes.error().detail;
  return bytes ? *bytes : "";
}

std::vector<std::string> names_in(const fs::path& folder) {
  std::vector<std::string> names;
  for (const auto& item : fs::directory_iterator(folder)) {
    names.push_back(item.path().filename().string());
  }
  return names;
}

class BackupOf : public ::testing::Test {
 protected:
  BackupOf() { RandomEntries(workshop_, 4).send(60); }
  base::Result<Backup> make() {
    return make_backup({workshop_.folder(), place_.path(), "0.1.0", at(kNow)}, real_definitions());
  }
  std::string refused() {
    const auto made = make();
    EXPECT_FALSE(made.ok());
    EXPECT_THAT(names_in(place_.path()), IsEmpty());
    return made ? "" : made.error().detail;
  }
  /// Some people, as far as a copy is concerned.
  void enter_people() const {
    auto people = sqlite::Database::open((workshop_.folder() / book::kBackupAccess).string(),
                                         sqlite::Mode::kReadWriteCreate);
    ASSERT_TRUE(people.ok());
    ASSERT_TRUE(people
                    ->execute("CREATE TABLE person (name TEXT); INSERT INTO person VALUES "
                              "('Whoever Left'), ('Bench A'); DELETE FROM person WHERE name = "
                              "'Whoever Left'")
                    .ok());
  }

  TestWorkshop workshop_;
  testing::TemporaryFolder place_;
};

TEST_F(BackupOf, AnOpenBookIsTheSameBookAndSaysSoItself) {
  enter_people();
  ASSERT_TRUE(workshop_.ports().live.keep().ok());
  const auto made = make();
  ASSERT_TRUE(made.ok()) << made.error().detail;
  EXPECT_EQ(made->folder, place_.path() / "benchwarden-20261120T120000Z");
  EXPECT_THAT(names_in(made->folder), UnorderedElementsAre("book.db", "head.txt", "access.db",
                                                           "manifest.json", "manifest.sha256"));
  EXPECT_EQ(made->manifest.head, workshop_.ports().book.head());
  EXPECT_EQ(made->manifest.tallies, base::sha256(workshop_.ports().live.view()->snapshot()));
  const auto read = read_manifest(made->folder);
  ASSERT_TRUE(read.ok()) << read.error().detail;
  EXPECT_EQ(*read, made->manifest);
  EXPECT_EQ(base::sha256(text_in(made->folder / kBackupManifest)), made->digest);
  const auto verified = verify_book(made->folder, real_definitions());
  ASSERT_TRUE(verified.ok()) << verified.error().detail;
  EXPECT_THAT(verified->faults, IsEmpty());
  EXPECT_EQ(verified->head, workshop_.ports().book.head());
}

TEST_F(BackupOf, PeopleHoldsNothingOfWhoWasDeleted) {
  enter_people();
  const auto made = make();
  ASSERT_TRUE(made.ok()) << made.error().detail;
  EXPECT_THAT(text_in(made->folder / book::kBackupAccess), HasSubstr("Bench A"));
  EXPECT_THAT(text_in(made->folder / book::kBackupAccess), Not(HasSubstr("Whoever Left")));
}

TEST_F(BackupOf, AnEmptyBookIsOne) {
  const TestWorkshop empty(TestWorkshop::Register::kEmpty);
  const auto made =
      make_backup({empty.folder(), place_.path(), "0.1.0", empty.clock.now()}, real_definitions());
  ASSERT_TRUE(made.ok()) << made.error().detail;
  EXPECT_EQ(made->manifest.head.size, 0U);
}

TEST_F(BackupOf, AChangedBookIsNotMadeAndLeavesNothing) {
  testing::tamper(workshop_.folder(), "UPDATE entry SET kind = 'oil-test' WHERE seq = 7");
  EXPECT_THAT(refused(), HasSubstr("entry 7: "));
}

TEST_F(BackupOf, ABookCutOffAtItsEndIsNotMade) {
  workshop_.close();
  const std::string last =
      std::to_string(testing::sql_number(workshop_.folder(), "SELECT max(seq) FROM entry"));
  testing::tamper(workshop_.folder(), "DELETE FROM mention WHERE seq = " + last +
                                          "; DELETE FROM entry WHERE seq = " + last);
  EXPECT_THAT(refused(), HasSubstr("entry " + last));
}

TEST_F(BackupOf, TalliesOtherThanThoseInUseIsNotMade) {
  const Ports& ports = workshop_.ports();
  ASSERT_TRUE(
      ports.book
          .keep_snapshot({tallies::kFoldVersion, ports.book.head(), tallies::State().snapshot()})
          .ok());
  EXPECT_THAT(refused(), HasSubstr("derived.db"));
}

TEST_F(BackupOf, DamagedPeopleIsNotMade) {
  std::ofstream(workshop_.folder() / book::kBackupAccess) << "no database";
  EXPECT_THAT(refused(), HasSubstr("access.db"));
}

TEST_F(BackupOf, NoBookOrIntoNoFolderSaysSo) {
  const testing::TemporaryFolder none;
  const auto no_book =
      make_backup({none.path(), place_.path(), "0.1.0", at(kNow)}, real_definitions());
  ASSERT_FALSE(no_book.ok());
  EXPECT_EQ(no_book.error().code, base::ErrorCode::kNotFound);
  const auto no_folder = make_backup(
      {workshop_.folder(), place_.path() / "stick", "0.1.0", at(kNow)}, real_definitions());
  ASSERT_FALSE(no_folder.ok());
  EXPECT_EQ(no_folder.error().code, base::ErrorCode::kUnavailable);
  EXPECT_THAT(no_folder.error().detail, HasSubstr("stick"));
}

TEST_F(BackupOf, TheSameSecondTakesNoFolderThatIsThere) {
  ASSERT_TRUE(make().ok());
  const auto again = make();
  ASSERT_FALSE(again.ok());
  EXPECT_EQ(again.error().code, base::ErrorCode::kConflict);
  EXPECT_THAT(names_in(place_.path()), ElementsAre("benchwarden-20261120T120000Z"));
}

TEST(BackupManifestText, IsReadOnlyAsItIsWritten) {
  BackupManifest manifest{"0.1.0", at("2026-11-20T12:00:00Z"), {3, base::sha256("r")},
                          5,       base::sha256("t"),          {}};
  manifest.files["book.db"] = {4096, base::sha256("b")};
  manifest.files["head.txt"] = {1024, base::sha256("h")};
  const std::string text = format_manifest(manifest);
  ASSERT_TRUE(parse_manifest(text).ok());
  EXPECT_EQ(*parse_manifest(text), manifest);
  EXPECT_EQ(parse_manifest(text + " ").error().code, base::ErrorCode::kDamaged);
  EXPECT_EQ(parse_manifest("").error().code, base::ErrorCode::kDamaged);

  std::string newer = text;
  newer.replace(newer.find("\"format\":1"), 10, "\"format\":2");
  EXPECT_EQ(parse_manifest(newer).error().code, base::ErrorCode::kConflict);

  manifest.files["../pepper"] = {32, base::sha256("p")};
  EXPECT_THAT(parse_manifest(format_manifest(manifest)).error().detail, HasSubstr("../pepper"));
  manifest.files.clear();
  EXPECT_THAT(parse_manifest(format_manifest(manifest)).error().detail, HasSubstr("lacks book.db"));
}

}  // namespace
}  // namespace benchwarden::workshop
