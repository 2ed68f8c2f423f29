#pragma once

#include <string>
#include <string_view>

#include "rules/scene.h"
#include "workshop/ports.h"

namespace benchwarden::fuzz {

/// Reads `text` as a rule pack; one without a fault judges the scene. Whatever comes in, a fault
/// names its line and its reason, and a finding has a rule and something to say. What was wrong
/// with that; "" when nothing was.
std::string drive_pack(const rules::Scene& scene, std::string_view text);

/// The same of a file of the register, in a dry run: its faults are sentences, and the book stays
/// as large as it was.
std::string drive_register(const workshop::Ports& ports, std::string_view text);

}  // namespace benchwarden::fuzz
