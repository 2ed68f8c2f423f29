#include "daemon/snapshot_keeper.h"

namespace benchwarden::daemon {
namespace {

constexpr std::uint64_t kEntriesKeptAfter = 10'000;
constexpr int kLooksSkippedAfterFailure = 60;  // writing it all out is work, also for a full disk

}  // namespace

void SnapshotKeeper::look_after() {
  if (looks_to_skip_ > 0) {
    --looks_to_skip_;
    return;
  }
  const auto kept = live_.keep_after(kEntriesKeptAfter);
  if (!kept) {
    looks_to_skip_ = kLooksSkippedAfterFailure;
    return log_.write_once(Severity::kError, "no-snapshot", kept.error().detail);
  }
  if (*kept) log_.settled("no-snapshot");
}

}  // namespace benchwarden::daemon
