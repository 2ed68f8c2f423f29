#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace benchwarden::fuzz {

/// The lines of a text without their ends.
std::vector<std::string> lines_of(std::string_view text);

// An input that changes one file of several names it in its first line; each further line is a
// number and the text that is to stand in that line of the file, and a number alone leaves that
// line out. So inputs stay small, and are of use however the file changes.

/// The name among `names` that the first line of `input` says. Any other words there stand for one
/// all the same; there is at least one.
std::string chosen_name(std::string_view input, const std::vector<std::string>& names);
/// `bytes` with the edits of `input`.
std::string edited(std::string_view bytes, std::string_view input);

}  // namespace benchwarden::fuzz
