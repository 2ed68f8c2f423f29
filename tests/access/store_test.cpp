#include "access/store.h"

#include <sys/stat.h>

#include <fstream>
#include <string>
#include <vector>

#include "access/access_fixture.h"
#include "access/query.h"
#include "access/schema.h"

namespace benchwarden::access {
namespace {

using base::ErrorCode;

class StoreTest : public AccessTest {
 protected:
  unsigned mode_of(const std::string& name) const {
    struct stat facts {};
    EXPECT_EQ(::stat((folder_ / name).c_str(), &facts), 0) << name;
    return facts.st_mode & 07777U;
  }
  ErrorCode open_error(const std::filesystem::path& folder) const {
    const auto opened = Access::open(folder, clock_, settings_);
    EXPECT_FALSE(opened.ok());
    return opened.ok() ? ErrorCode::kNotFound : opened.error().code;
  }
  void write_pepper(const std::string& bytes) const {
    std::ofstream(folder_ / "pepper", std::ios::binary | std::ios::trunc) << bytes;
  }
};

TEST_F(StoreTest, AllFilesAreForTheirOwnerOnly) {
  add("Bench A");
  for (const char* name : {"access.db", "access.db-wal", "access.db-shm", "pepper"}) {
    EXPECT_EQ(mode_of(name), 0600U) << name;
  }
}

TEST_F(StoreTest, FilesMadeReadableForOthersAreNarrowedAtTheNextStart) {
  access_.reset();
  for (const char* name : {"access.db", "pepper"}) {
    ASSERT_EQ(::chmod((folder_ / name).c_str(), 0644), 0);
  }
  reopen();
  EXPECT_EQ(mode_of("access.db"), 0600U);
  EXPECT_EQ(mode_of("pepper"), 0600U);
}

TEST_F(StoreTest, NoPinTokenOrCodeIsInAnyFile) {
  const auto code = access_->setup_code();
  ASSERT_TRUE(code.ok() && code->has_value());
  ASSERT_TRUE(access_->first_manager(**code, "Office", kPin).ok());
  ASSERT_TRUE(access_->add_person("Bench A", Role::kTechnician, "274913805162", "p1").ok());
  const auto session = access_->sign_in("p2", {Secret::Kind::kPin, "274913805162"}, from(kAddress));
  ASSERT_TRUE(session.ok());
  ASSERT_TRUE(access_->session(session->token).ok());
  refusal("p1", kOtherPin);
  refusal("805162", "p1");
  ASSERT_TRUE(access_->reset_pin("p1", "918273", "machine").ok());

  const std::string open_bytes = stored_bytes();
  access_.reset();  // folds the log into the file
  const std::string closed_bytes = stored_bytes();
  for (const std::string& bytes : {open_bytes, closed_bytes}) {
    ASSERT_NE(bytes.find("Office"), std::string::npos) << "names are there, so the search works";
    ASSERT_NE(bytes.find("$argon2id$"), std::string::npos);
    for (const std::string& secret :
         {std::string(kPin), std::string("274913805162"), std::string("918273"),
          std::string(kOtherPin), session->token, **code}) {
      EXPECT_EQ(bytes.find(secret), std::string::npos) << secret;
    }
  }
}

TEST_F(StoreTest, PeopleAndTheirPinsSurviveARestart) {
  const Person person = add("Bench A", Role::kInspector);
  let_read(person);
  reopen();
  const auto found = access_->person(person.id);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found->name, "Bench A");
  EXPECT_EQ(found->role, Role::kInspector);
  sign_in(person);
}

TEST_F(StoreTest, AMissingPepperIsNotReplacedWhileThereArePeople) {
  add("Bench A");
  access_.reset();
  std::filesystem::remove(folder_ / "pepper");
  EXPECT_EQ(open_error(folder_), ErrorCode::kDamaged);
  EXPECT_FALSE(std::filesystem::exists(folder_ / "pepper"));
}

TEST_F(StoreTest, AnotherPepperOpensNoPinUntilItIsSetAnew) {
  const Person person = add("Bench A");
  access_.reset();
  write_pepper(std::string(32, 'x'));
  reopen();
  EXPECT_EQ(refusal(person.id, kPin).reason, SignInRefusal::Reason::kWrong);
  ASSERT_TRUE(access_->reset_pin(person.id, kPin, "machine").ok());
  sign_in(person);
}

TEST_F(StoreTest, APepperOfAnotherSizeIsDamaged) {
  access_.reset();
  for (const std::size_t size : {std::size_t{0}, std::size_t{31}, std::size_t{33}}) {
    write_pepper(std::string(size, 'x'));
    EXPECT_EQ(open_error(folder_), ErrorCode::kDamaged) << size;
  }
}

TEST_F(StoreTest, AMissingFolderIsNotMade) {
  EXPECT_EQ(open_error(folder_ / "none"), ErrorCode::kUnavailable);
  EXPECT_FALSE(std::filesystem::exists(folder_ / "none"));
}

TEST_F(StoreTest, ASymbolicLinkIsNotFollowed) {
  access_.reset();
  std::filesystem::rename(folder_ / "access.db", folder_ / "elsewhere");
  std::filesystem::create_symlink("elsewhere", folder_ / "access.db");
  EXPECT_EQ(open_error(folder_), ErrorCode::kInvalid);
}

TEST_F(StoreTest, AFileThatIsNoDatabaseIsDamaged) {
  access_.reset();
  std::filesystem::remove(folder_ / "access.db");
  std::ofstream(folder_ / "access.db") << std::string(4'096, 'x');
  EXPECT_EQ(open_error(folder_), ErrorCode::kDamaged);
}

TEST_F(StoreTest, AFileOfALaterVersionIsRefused) {
  access_.reset();
  {
    auto database =
        sqlite::Database::open((folder_ / "access.db").string(), sqlite::Mode::kReadWriteCreate);
    ASSERT_TRUE(database.ok());
    ASSERT_TRUE(database->execute("PRAGMA user_version = 1000").ok());
  }
  EXPECT_EQ(open_error(folder_), ErrorCode::kConflict);
}

TEST_F(StoreTest, CountsOfAFileOfTheFirstVersionAreTakenOver) {
  const Person person = add("Bench A");
  const std::filesystem::path file = folder_ / "access.db";
  std::string hash;
  {
    auto now = sqlite::Database::open(file.string(), sqlite::Mode::kReadOnly);
    ASSERT_TRUE(now.ok());
    const auto row = first_row(*now, "SELECT pin_hash FROM person");
    ASSERT_TRUE(row.ok() && *row);
    hash = (*row)->text(0);
  }
  access_.reset();
  std::filesystem::remove(file);
  {
    auto first = sqlite::Database::open(file.string(), sqlite::Mode::kReadWriteCreate);
    ASSERT_TRUE(first.ok());
    ASSERT_TRUE(first->execute(schema_steps().front()).ok());
    ASSERT_TRUE(
        run(*first,
            "INSERT INTO person (name, role, pin_hash) VALUES ('Bench A', 'technician', ?1)",
            {hash})
            .ok());
    ASSERT_TRUE(first
                    ->execute("INSERT INTO sign_in_guard VALUES (1, 5, 1792000000000); "
                              "PRAGMA user_version = 1")
                    .ok());
  }
  reopen();
  const auto refused = refusal(person.id, kPin, "192.168.7.20");
  EXPECT_EQ(refused.reason, SignInRefusal::Reason::kLockedOut);
  EXPECT_EQ(refused.retry_after_s, 30);
}

TEST_F(StoreTest, TablesAreStrict) {
  EXPECT_EQ(number("SELECT count(*) FROM pragma_table_list "
                   "WHERE schema = 'main' AND strict = 0 AND name NOT LIKE 'sqlite_%'"),
            0);
  EXPECT_EQ(number("SELECT count(*) FROM pragma_table_list "
                   "WHERE schema = 'main' AND strict = 1"),
            13);
}

TEST_F(StoreTest, AChangeThatFailsIsUndone) {
  auto store = Store::open(folder_);
  ASSERT_TRUE(store.ok());
  const auto changed = (*store)->change([](sqlite::Database& database) -> base::Status<> {
    const auto added = run(database, "INSERT INTO sign_in_guard VALUES (7, '', 1, 0)");
    EXPECT_TRUE(added.ok());
    return base::Error{ErrorCode::kForbidden, "second thoughts"};
  });
  ASSERT_FALSE(changed.ok());
  EXPECT_EQ(changed.error().code, ErrorCode::kForbidden);
  EXPECT_EQ(number("SELECT count(*) FROM sign_in_guard"), 0);
}

TEST_F(StoreTest, AFileHeldByAnotherProcessIsAFaultThatMayPass) {
  const Person person = add("Bench A");
  auto holder =
      sqlite::Database::open((folder_ / "access.db").string(), sqlite::Mode::kReadWriteCreate);
  ASSERT_TRUE(holder.ok());
  {
    auto held = sqlite::Transaction::begin(*holder);
    ASSERT_TRUE(held.ok());
    EXPECT_EQ(refusal(person.id, kPin).reason, SignInRefusal::Reason::kFault);
  }
  sign_in(person);
}

}  // namespace
}  // namespace benchwarden::access
