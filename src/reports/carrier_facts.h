#pragma once

#include <string>

#include "tallies/state.h"

namespace benchwarden::reports {

/// A carrier as the register stands; "" for what was not entered.
struct CarrierFacts {
  std::string id;
  std::string name;
  std::string registration;
  std::string registration_expires;  ///< YYYY-MM-DD
  std::string telephone;
};

/// Of an unknown one the id alone.
CarrierFacts carrier_facts(const tallies::State& state, const std::string& id);

}  // namespace benchwarden::reports
