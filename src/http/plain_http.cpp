#include "http/plain_http.h"

#include <string_view>

#include "http/response_headers.h"

namespace benchwarden::http {

bool is_plain_http(char first) { return first >= 'A' && first <= 'Z'; }

const std::string& plain_http_answer() {
  static const std::string kAnswer = [] {
    constexpr std::string_view kText = "This address speaks HTTPS: write https:// before it.\n";
    std::string head = "HTTP/1.1 400 Bad Request\r\nConnection: close\r\n";
    for (const auto& [name, value] : complete_headers({})) head += name + ": " + value + "\r\n";
    head += "Content-Type: text/plain; charset=utf-8\r\nContent-Length: ";
    return head + std::to_string(kText.size()) + "\r\n\r\n" + std::string(kText);
  }();
  return kAnswer;
}

}  // namespace benchwarden::http
