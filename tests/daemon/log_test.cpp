#include "daemon/log.h"

#include <gtest/gtest.h>

#include <ostream>
#include <streambuf>
#include <string>

namespace benchwarden::daemon {
namespace {

class FixedClock : public base::Clock {
 public:
  [[nodiscard]] base::Instant now() const override { return {}; }
};

/// Takes nothing while it is full.
class Disk : public std::streambuf {
 public:
  bool is_full = false;
  std::string bytes;

 protected:
  std::streamsize xsputn(const char* from, std::streamsize count) override {
    if (is_full) return 0;
    bytes.append(from, static_cast<std::size_t>(count));
    return count;
  }
};

TEST(Log, GoesOnOnceTheDiskHasRoomAgain) {
  const FixedClock clock;
  Disk disk;
  std::ostream out(&disk);
  Log log(clock, out);
  disk.is_full = true;
  log.write(Severity::kError, "no-backup", "the disk is full");
  disk.is_full = false;
  log.write(Severity::kNotice, "fault", "it is not any more");
  EXPECT_EQ(disk.bytes,
            "{\"time\":\"1970-01-01T00:00:00Z\",\"severity\":\"notice\",\"event\":\"fault\","
            "\"detail\":\"it is not any more\"}\n");
  EXPECT_EQ(log.recent().size(), 2U) << "nor is what could not be written forgotten";
}

TEST(Log, SaysTheSameOnceUntilItIsSettled) {
  const FixedClock clock;
  Disk disk;
  std::ostream out(&disk);
  Log log(clock, out);
  for (int look = 0; look < 3; ++look) log.write_once(Severity::kError, "no-backup", "full");
  EXPECT_EQ(log.recent().size(), 1U);
  log.write_once(Severity::kError, "no-backup", "gone");
  EXPECT_EQ(log.recent().size(), 2U) << "in other words it is another fault";
  log.settled("no-snapshot");
  log.write_once(Severity::kError, "no-backup", "full");
  EXPECT_EQ(log.recent().size(), 2U);
  log.settled("no-backup");
  log.write_once(Severity::kError, "no-backup", "full");
  EXPECT_EQ(log.recent().size(), 3U);
}

}  // namespace
}  // namespace benchwarden::daemon
