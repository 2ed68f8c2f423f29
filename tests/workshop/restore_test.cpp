#include "workshop/restore.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <random>
#include <sstream>

#include "sqlite/folder_lock.h"
#include "workshop/backup.h"
#include "workshop/random_entries.h"
#include "workshop/test_workshop.h"
#include "workshop/upkeep.h"

namespace benchwarden::workshop {
namespace {

namespace fs = std::filesystem;
using ::testing::AnyOf;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::UnorderedElementsAre;

std::string read_bytes(const fs::path& file) {
  std::ostringstream text;
  text << std::ifstream(file, std::ios::binary).rdbuf();
  return text.str();
}

void write_bytes(const fs::path& file, const std::string& bytes) {
  std::ofstream(file, std::ios::binary | std::ios::trunc) << bytes;
}

std::vector<std::string> files_of(const fs::path& folder) {
  std::vector<std::string> names;
  for (const auto& item : fs::directory_iterator(folder)) {
    names.push_back(item.path().filename().string());
  }
  return names;
}

class Restore : public ::testing::Test {
 protected:
  Restore() {
    RandomEntries(workshop_, 9).send(40);
    auto people = sqlite::Database::open((workshop_.folder() / book::kBackupAccess).string(),
                                         sqlite::Mode::kReadWriteCreate);
    EXPECT_TRUE(people.ok() && people->execute("CREATE TABLE person (name TEXT)").ok());
    auto made =
        make_backup({workshop_.folder(), place_.path(), "0.1.0", at(kNow)}, real_definitions());
    EXPECT_TRUE(made.ok());
    backup_ = made->folder;
  }
  base::Result<Restored> restore(Existing existing = Existing::kRefuse,
                                 std::optional<book::TreeHead> holds = {}) {
    return restore_backup({backup_, data(), existing, holds, at(kNow)}, real_definitions());
  }
  void refused(base::ErrorCode code, const std::string& says,
               std::optional<book::TreeHead> holds = {}) {
    const auto restored = restore(Existing::kRefuse, holds);
    ASSERT_FALSE(restored.ok());
    EXPECT_EQ(restored.error().code, code);
    EXPECT_THAT(restored.error().detail, HasSubstr(says));
  }
  [[nodiscard]] fs::path data() const { return place_.path() / "data"; }

  TestWorkshop workshop_;
  testing::TemporaryFolder place_;
  fs::path backup_;
};

TEST_F(Restore, GivesTheBookAsItWasAndAStartTakesIt) {
  const book::TreeHead head = workshop_.ports().book.head();
  const std::string tallies = workshop_.ports().live.view()->snapshot();
  const auto restored = restore();
  ASSERT_TRUE(restored.ok()) << restored.error().detail;
  EXPECT_EQ(restored->manifest.head, head);
  EXPECT_EQ(restored->aside, "");
  EXPECT_THAT(files_of(data()), UnorderedElementsAre("access.db", "book.db", "head.txt", "lock"));
  const FewNames names;
  const auto open = OpenBook::open(data(), real_definitions(), workshop_.clock, names);
  ASSERT_TRUE(open.ok()) << open.error().detail;
  EXPECT_EQ((*open)->ports().book.head(), head);
  EXPECT_EQ((*open)->ports().live.view()->snapshot(), tallies);
}

TEST_F(Restore, LeavesAKeyThatIsThereAndRefusesABookThatIs) {
  fs::create_directory(data());
  write_bytes(data() / "pepper", "kept apart");
  ASSERT_TRUE(restore().ok());
  EXPECT_EQ(read_bytes(data() / "pepper"), "kept apart");
  const std::string before = read_bytes(data() / book::kBackupBook);
  refused(base::ErrorCode::kConflict, "--replace");
  EXPECT_EQ(read_bytes(data() / book::kBackupBook), before);
}

TEST_F(Restore, MovesWhatIsThereAsideWithItsLogsAndDeletesNothing) {
  fs::create_directory(data());
  for (const char* name :
       {"book.db", "book.db-wal", "head.txt", "access.db", "derived.db", "staged.db", "pepper"}) {
    write_bytes(data() / name, std::string("old ") + name);
  }
  const auto restored = restore(Existing::kMoveAside);
  ASSERT_TRUE(restored.ok()) << restored.error().detail;
  EXPECT_EQ(restored->aside, data() / "replaced-20261120T120000Z");
  EXPECT_THAT(files_of(data()), UnorderedElementsAre("access.db", "book.db", "head.txt", "lock",
                                                     "pepper", "replaced-20261120T120000Z"));
  for (const char* name :
       {"book.db", "book.db-wal", "head.txt", "access.db", "derived.db", "staged.db"}) {
    EXPECT_EQ(read_bytes(restored->aside / name), std::string("old ") + name);
  }
  EXPECT_THAT(verify_book(data(), real_definitions())->faults, IsEmpty());
}

TEST_F(Restore, ProvesTheHeadThatWasKeptElsewhere) {
  const book::Book& book = workshop_.ports().book;
  const std::uint64_t earlier = book.head().size / 2;
  const book::TreeHead printed{earlier, *book.root_at(earlier)};
  refused(base::ErrorCode::kDamaged, "are not those that were recorded",
          book::TreeHead{earlier, base::sha256("other")});
  refused(base::ErrorCode::kDamaged, "had been recorded",
          book::TreeHead{book.head().size + 1, book.head().root});
  EXPECT_FALSE(fs::exists(data())) << "nothing is left";
  EXPECT_TRUE(restore(Existing::kRefuse, printed).ok());
}

TEST_F(Restore, TakesNoFolderThatAnotherHasOpenAndNoOtherFolder) {
  fs::create_directory(data());
  const auto lock = sqlite::FolderLock::take(data());
  ASSERT_TRUE(lock.ok());
  refused(base::ErrorCode::kUnavailable, "in use by another process");
  backup_ = place_.path();
  refused(base::ErrorCode::kNotFound, "manifest.json");
}

TEST_F(Restore, OfABookThatWasRewrittenWithItsManifestFailsByItsTallies) {
  // Somebody who rewrites a manifest and its digest, but not what the entries fold to.
  BackupManifest manifest = *read_manifest(backup_);
  manifest.tallies = base::sha256("other figures");
  const std::string text = format_manifest(manifest);
  write_bytes(backup_ / kBackupManifest, text);
  write_bytes(backup_ / kBackupManifestDigest, manifest_digest_line(text));
  refused(base::ErrorCode::kDamaged, "other tallies");
}

TEST_F(Restore, WithOneBitTurnedAnywhereIsRefusedAndLeavesNothing) {
  const auto seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937_64 random(seed);
  const std::vector<std::string> names = files_of(backup_);
  for (std::size_t round = 0; round < 500; ++round) {
    const fs::path file = backup_ / names[round % names.size()];
    const std::string whole = read_bytes(file);
    std::string turned = whole;
    const std::size_t at = random() % turned.size();
    const auto bit = static_cast<unsigned>(random() % 8);
    turned[at] = static_cast<char>(static_cast<unsigned char>(turned[at]) ^ (1U << bit));
    write_bytes(file, turned);
    const auto restored = restore();
    ASSERT_FALSE(restored.ok()) << file << " byte " << at << " bit " << bit;
    EXPECT_THAT(restored.error().code,
                AnyOf(base::ErrorCode::kDamaged, base::ErrorCode::kConflict));
    EXPECT_FALSE(fs::exists(data()));
    write_bytes(file, whole);
  }
  EXPECT_TRUE(restore().ok()) << "nothing was left turned";
}

}  // namespace
}  // namespace benchwarden::workshop
