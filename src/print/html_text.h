#pragma once

#include <string>
#include <string_view>

namespace benchwarden::print {

/// Any text made safe as the content of an element or of a quoted attribute.
std::string html_text(std::string_view text);

/// As html_text, with "\n" as a line break.
std::string html_lines(std::string_view text);

/// "<tag>text</tag>" with the text made safe; `attributes` are written as they stand.
std::string html_element(std::string_view tag, std::string_view text,
                         std::string_view attributes = "");

}  // namespace benchwarden::print
