#include "sqlite/folder_lock.h"

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <optional>
#include <utility>

#include "sqlite/temporary_folder.h"

namespace benchwarden::sqlite {
namespace {

enum ChildResult { kTaken = 40, kRefused = 41, kOther = 42 };

/// What another process gets when it wants the lock.
int tried_by_another_process(const std::filesystem::path& folder) {
  const pid_t child = ::fork();
  if (child == 0) {
    auto lock = FolderLock::take(folder);
    if (lock.ok()) ::_exit(kTaken);
    ::_exit(lock.error().code == base::ErrorCode::kUnavailable ? kRefused : kOther);
  }
  int status = 0;
  EXPECT_EQ(::waitpid(child, &status, 0), child);
  EXPECT_TRUE(WIFEXITED(status));
  return WEXITSTATUS(status);
}

TEST(FolderLock, IsHeldAgainstOtherProcessesUntilItEnds) {
  const testing::TemporaryFolder folder;
  {
    auto lock = FolderLock::take(folder.path());
    ASSERT_TRUE(lock.ok()) << lock.error().detail;
    EXPECT_EQ(tried_by_another_process(folder.path()), kRefused);
    const FolderLock moved = *std::move(lock);
    EXPECT_EQ(tried_by_another_process(folder.path()), kRefused);
  }
  EXPECT_EQ(tried_by_another_process(folder.path()), kTaken);
}

TEST(FolderLock, IsHeldAgainstASecondTakerInOneProcess) {
  const testing::TemporaryFolder folder;
  auto lock = FolderLock::take(folder.path());
  ASSERT_TRUE(lock.ok());
  auto second = FolderLock::take(folder.path());
  ASSERT_FALSE(second.ok());
  EXPECT_NE(second.error().detail.find(folder.path().string()), std::string::npos);
}

TEST(FolderLock, EndsWithAProcessThatIsKilled) {
  const testing::TemporaryFolder folder;
  int taken[2];
  ASSERT_EQ(::pipe(taken), 0);
  const pid_t child = ::fork();
  if (child == 0) {
    auto lock = FolderLock::take(folder.path());
    const char told = lock.ok() ? 'y' : 'n';
    if (::write(taken[1], &told, 1) != 1) ::_exit(kOther);
    for (;;) ::pause();
  }
  char told = 0;
  ASSERT_EQ(::read(taken[0], &told, 1), 1);
  EXPECT_EQ(told, 'y');
  EXPECT_FALSE(FolderLock::take(folder.path()).ok());
  ASSERT_EQ(::kill(child, SIGKILL), 0);
  ASSERT_EQ(::waitpid(child, nullptr, 0), child);
  EXPECT_TRUE(FolderLock::take(folder.path()).ok());
  ::close(taken[0]);
  ::close(taken[1]);
}

TEST(FolderLock, NeedsAFolder) {
  const testing::TemporaryFolder folder;
  auto lock = FolderLock::take(folder.path() / "missing");
  ASSERT_FALSE(lock.ok());
  EXPECT_EQ(lock.error().code, base::ErrorCode::kUnavailable);
}

}  // namespace
}  // namespace benchwarden::sqlite
