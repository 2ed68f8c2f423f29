#include "http/accepted_encoding.h"

#include <algorithm>
#include <optional>
#include <string>

#include "http/host_list.h"
#include "http/request_head.h"

namespace benchwarden::http {
namespace {

/// "", or "q=" and a number from 0 to 1: whether that is more than nothing.
bool has_weight(std::string_view parameter) {
  if (parameter.empty()) return true;
  if (!ascii_lower(parameter).starts_with("q=")) return false;
  const std::string_view number = parameter.substr(2);
  return number.find_first_not_of("0123456789.") == std::string_view::npos &&
         number.find_first_of("123456789") != std::string_view::npos;
}

}  // namespace

bool accepts_gzip(std::string_view accept_encoding) {
  std::optional<bool> named;
  bool any = false;
  for (std::string_view rest = accept_encoding; !rest.empty();) {
    const std::string_view item = rest.substr(0, rest.find(','));
    rest.remove_prefix(std::min(item.size() + 1, rest.size()));
    const std::size_t end = std::min(item.find(';'), item.size());
    const std::string coding = ascii_lower(trimmed(item.substr(0, end)));
    const bool is_taken = has_weight(trimmed(item.substr(std::min(end + 1, item.size()))));
    if (coding == "gzip" || coding == "x-gzip") named = is_taken;
    if (coding == "*") any = is_taken;
  }
  return named.value_or(any);
}

}  // namespace benchwarden::http
