#include "print/html_text.h"

#include "print/clean_text.h"

namespace benchwarden::print {
namespace {

std::string escape(std::string_view text, std::string_view line_break) {
  std::string out;
  for (const char c : clean_text(text)) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      case '\n':
        out += line_break;
        break;
      default:
        out += c;
    }
  }
  return out;
}

}  // namespace

std::string html_text(std::string_view text) { return escape(text, "\n"); }

std::string html_lines(std::string_view text) { return escape(text, "<br>"); }

std::string html_element(std::string_view tag, std::string_view text, std::string_view attributes) {
  const std::string name(tag);
  const std::string space = attributes.empty() ? "" : " ";
  return "<" + name + space + std::string(attributes) + ">" + html_lines(text) + "</" + name + ">";
}

}  // namespace benchwarden::print
