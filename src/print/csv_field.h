#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace benchwarden::print {

/// One field of a CSV file as RFC 4180 has it: quoted where it must be, valid UTF-8 without
/// controls but tabs and line ends, and without marks that turn the direction of what follows. A
/// text that a spreadsheet would run as a formula gets a leading apostrophe; numbers stay as they
/// are.
std::string csv_field(std::string_view text);

/// The fields with commas between them and the line end of RFC 4180.
std::string csv_line(const std::vector<std::string_view>& fields);

}  // namespace benchwarden::print
