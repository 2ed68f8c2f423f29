#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/json.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// What the book has of a device and its own numbers, which count from 1: {"entries",
/// "last_device_seq": the highest or null, "missing": [{"from", "to"}] that never came, "repeated":
/// [numbers under which more than one entry came]}. All empty where nothing came of it.
base::JsonObject device_in_book(const Ports& ports, std::string_view device);

/// The ids of all devices of which entries came.
std::vector<std::string> devices_in_book(const Ports& ports);

}  // namespace benchwarden::workshop
