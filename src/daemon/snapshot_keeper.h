#pragma once

#include "daemon/log.h"
#include "workshop/live_state.h"

namespace benchwarden::daemon {

/// Keeps a snapshot after every so many entries, so that a start is quick also when the machine
/// went down without one: it takes in those entries, and what a load brings between two looks.
class SnapshotKeeper {
 public:
  SnapshotKeeper(workshop::LiveState& live, Log& log) : live_(live), log_(log) {}

  /// To be called every few seconds, by one thread.
  void look_after();

 private:
  workshop::LiveState& live_;
  Log& log_;
  int looks_to_skip_ = 0;
};

}  // namespace benchwarden::daemon
