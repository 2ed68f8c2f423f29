#pragma once

#include <vector>

#include "calculations/calculator.h"

// The calculations that can be called by name, by subject. Each puts named numbers into the types
// of its calculation and names what comes out, with the steps on the way.
namespace benchwarden::calculations {

std::vector<Calculator> gas_calculators();
std::vector<Calculator> room_calculators();
std::vector<Calculator> oil_calculators();
std::vector<Calculator> container_calculators();
std::vector<Calculator> gauge_calculators();
std::vector<Calculator> general_calculators();

}  // namespace benchwarden::calculations
