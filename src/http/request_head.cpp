#include "http/request_head.h"

#include <algorithm>
#include <charconv>

#include "http/host_list.h"

namespace benchwarden::http {
namespace {

bool is_named(std::string_view sent, std::string_view name) {
  return sent.size() == name.size() && ascii_lower(sent) == ascii_lower(name);
}

}  // namespace

std::size_t count_field(const RequestHead& head, std::string_view name) {
  const auto count = std::count_if(head.fields.begin(), head.fields.end(),
                                   [&](const auto& f) { return is_named(f.first, name); });
  return static_cast<std::size_t>(count);
}

std::string_view field(const RequestHead& head, std::string_view name) {
  const auto found = std::find_if(head.fields.begin(), head.fields.end(),
                                  [&](const auto& f) { return is_named(f.first, name); });
  return found == head.fields.end() ? std::string_view() : trimmed(found->second);
}

std::string_view trimmed(std::string_view text) {
  text.remove_prefix(std::min(text.find_first_not_of(" \t"), text.size()));
  return text.substr(0, text.find_last_not_of(" \t") + 1);
}

bool carries_body(const RequestHead& head) {
  return head.method == "POST" || head.method == "PUT" || head.method == "PATCH";
}

std::optional<std::size_t> declared_length(const RequestHead& head) {
  const std::string_view text = field(head, "Content-Length");
  if (text.empty() || text.find_first_not_of("0123456789") != std::string_view::npos) {
    return std::nullopt;
  }
  std::size_t length = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), length);
  if (error != std::errc() || end != text.data() + text.size()) {
    return std::nullopt;
  }
  return length;
}

bool is_body_absent(const RequestHead& head) {
  if (count_field(head, "Transfer-Encoding") != 0) {
    return false;
  }
  if (count_field(head, "Content-Length") == 0) {
    return !carries_body(head);
  }
  return count_field(head, "Content-Length") == 1 &&
         declared_length(head) == std::optional<std::size_t>(0);
}

}  // namespace benchwarden::http
