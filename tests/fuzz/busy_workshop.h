#pragma once

#include "workshop/test_workshop.h"

namespace benchwarden::fuzz {

/// A book in which something of every kind happened; the same in every run of a target.
workshop::TestWorkshop& busy_workshop();

}  // namespace benchwarden::fuzz
