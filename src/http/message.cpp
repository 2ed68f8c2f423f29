#include "http/message.h"

namespace benchwarden::http {

std::string_view body_bytes(const Response& response) {
  if (const auto* own = std::get_if<std::string>(&response.body)) {
    return *own;
  }
  if (const auto* shared = std::get_if<std::shared_ptr<const std::string>>(&response.body)) {
    return *shared ? std::string_view(**shared) : std::string_view();
  }
  return std::get<std::string_view>(response.body);
}

}  // namespace benchwarden::http
