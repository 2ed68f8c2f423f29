#pragma once

#include <ostream>
#include <vector>

#include "faults/faulty_disk.h"

namespace benchwarden::testing {

struct FaultCase {
  const char* name;
  DiskFault fault;
  int step;  ///< how many calls lie between two that are tried in the test command
};

inline std::ostream& operator<<(std::ostream& out, const FaultCase& one) { return out << one.name; }

/// Faults that the disk tells.
const std::vector<FaultCase>& told_faults();
/// A disk that tells nobody when it gives other bytes than were written.
const std::vector<FaultCase>& lies();

/// 1 where the environment asks for every call, by BENCHWARDEN_EVERY_CALL=1.
int step_of(const FaultCase& one);

}  // namespace benchwarden::testing
