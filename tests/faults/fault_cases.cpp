#include "faults/fault_cases.h"

#include "faults/rounds.h"

namespace benchwarden::testing {

const std::vector<FaultCase>& told_faults() {
  static const std::vector<FaultCase> cases{
      {"read_eio", {DiskCall::kRead, DiskFault::How::kRefuses, SQLITE_IOERR}, 17},
      {"write_eio", {DiskCall::kWrite, DiskFault::How::kRefuses, SQLITE_IOERR}, 15},
      {"write_full", {DiskCall::kWrite, DiskFault::How::kRefuses, SQLITE_FULL}, 15},
      {"sync_eio", {DiskCall::kSync, DiskFault::How::kRefuses, SQLITE_IOERR}, 2},
      {"truncate_eio", {DiskCall::kTruncate, DiskFault::How::kRefuses, SQLITE_IOERR}, 1},
      {"size_eio", {DiskCall::kSize, DiskFault::How::kRefuses, SQLITE_IOERR}, 9},
      {"open_refused", {DiskCall::kOpen, DiskFault::How::kRefuses, SQLITE_IOERR}, 3},
      {"open_read_only", {DiskCall::kOpen, DiskFault::How::kReadOnly}, 3},
      {"delete_eio", {DiskCall::kDelete, DiskFault::How::kRefuses, SQLITE_IOERR}, 1},
      {"lock_eio", {DiskCall::kLock, DiskFault::How::kRefuses, SQLITE_IOERR}, 23},
      {"shared_eio", {DiskCall::kShared, DiskFault::How::kRefuses, SQLITE_IOERR}, 3},
  };
  return cases;
}

const std::vector<FaultCase>& lies() {
  static const std::vector<FaultCase> cases{
      {"read_short", {DiskCall::kRead, DiskFault::How::kReadsLess}, 4},
      {"read_nothing", {DiskCall::kRead, DiskFault::How::kReadsZero}, 4},
      {"read_flipped", {DiskCall::kRead, DiskFault::How::kFlipsBit}, 2},
  };
  return cases;
}

int step_of(const FaultCase& one) {
  return from_environment("BENCHWARDEN_EVERY_CALL", 0) == 0 ? one.step : 1;
}

}  // namespace benchwarden::testing
