#pragma once

#include "findings/finding.h"

namespace benchwarden::rules {

/// Whether a finding says that something is suspected in a container; its first value is what.
bool tells_suspicion(const findings::Finding& finding);

}  // namespace benchwarden::rules
