#include "faults/fault_cases.h"

#include "faults/rounds.h"

namespace benchwarden::testing {

const std::vector<FaultCase>& told_faults() {
  static const std::vector<FaultCase> cases{
      {"read_eio", {DiskCall::kRead, DiskFault::How::kRefuses, SQLITE_IOERR}, 9},
      {"write_eio", {DiskCall::kWrite, DiskFault::How::kRefuses, SQLITE_IOERR}, 7},
      {"write_full", {DiskCall::kWrite, DiskFault::How::kRefuses, SQLITE_FULL}, 7},
      {"sync_eio", {DiskCall::kSync, DiskFault::How::kRefuses, SQLITE_IOERR}, 1},
      {"truncate_eio", {DiskCall::kTruncate, DiskFault::How::kRefuses, SQLITE_IOERR}, 1},
      {"size_eio", {DiskCall::kSize, DiskFault::How::kRefuses, SQLITE_IOERR}, 5},
      {"open_refused", {DiskCall::kOpen, DiskFault::How::kRefuses, SQLITE_IOERR}, 2},
      {"open_read_only", {DiskCall::kOpen, DiskFault::How::kReadOnly}, 2},
      {"delete_eio", {DiskCall::kDelete, DiskFault::How::kRefuses, SQLITE_IOERR}, 1},
      {"lock_eio", {DiskCall::kLock, DiskFault::How::kRefuses, SQLITE_IOERR}, 11},
      {"shared_eio", {DiskCall::kShared, DiskFault::How::kRefuses, SQLITE_IOERR}, 2},
  };
  return cases;
}

const std::vector<FaultCase>& lies() {
  static const std::vector<FaultCase> cases{
      {"read_short", {DiskCall::kRead, DiskFault::How::kReadsLess}, 2},
      {"read_nothing", {DiskCall::kRead, DiskFault::How::kReadsZero}, 2},
      {"read_flipped", {DiskCall::kRead, DiskFault::How::kFlipsBit}, 1},
  };
  return cases;
}

int step_of(const FaultCase& one) {
  return from_environment("BENCHWARDEN_EVERY_CALL", 0) == 0 ? one.step : 1;
}

}  // namespace benchwarden::testing
