#include "http/raw_client.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <stdexcept>
#include <utility>

namespace benchwarden::http {
namespace {

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

std::optional<RawAnswer> parse_head(std::string_view head) {
  constexpr std::string_view kStart = "HTTP/1.1 ";
  if (!head.starts_with(kStart) || head.size() < kStart.size() + 3) {
    return std::nullopt;
  }
  RawAnswer answer;
  answer.status = std::stoi(std::string(head.substr(kStart.size(), 3)));
  std::size_t at = head.find("\r\n");
  while (at != std::string_view::npos && at + 2 < head.size()) {
    const std::size_t end = head.find("\r\n", at + 2);
    const std::string_view line = head.substr(at + 2, end - at - 2);
    const std::size_t colon = line.find(": ");
    if (colon != std::string_view::npos) {
      answer.headers[lower(std::string(line.substr(0, colon)))] = line.substr(colon + 2);
    }
    at = end;
  }
  return answer;
}

}  // namespace

std::string RawAnswer::header(const std::string& name) const {
  const auto found = headers.find(name);
  return found == headers.end() ? "" : found->second;
}

RawClient::RawClient(std::uint16_t port, const std::string& from)
    : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
  const auto address_of = [](const std::string& text, std::uint16_t number) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(number);
    if (::inet_pton(AF_INET, text.c_str(), &address.sin_addr) != 1) address.sin_family = AF_UNSPEC;
    return address;
  };
  const sockaddr_in ours = address_of(from, 0);
  const sockaddr_in theirs = address_of("127.0.0.1", port);
  if (::bind(socket_, reinterpret_cast<const sockaddr*>(&ours), sizeof ours) != 0 ||
      ::connect(socket_, reinterpret_cast<const sockaddr*>(&theirs), sizeof theirs) != 0) {
    ::close(socket_);
    throw std::runtime_error("cannot connect");
  }
}

RawClient::~RawClient() { ::close(socket_); }

bool RawClient::send(std::string_view bytes) const {
  while (!bytes.empty()) {
    const ssize_t sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent <= 0) {
      return false;
    }
    bytes.remove_prefix(static_cast<std::size_t>(sent));
  }
  return true;
}

void RawClient::end_sending() const { ::shutdown(socket_, SHUT_WR); }

RawClient::Got RawClient::receive(std::chrono::steady_clock::time_point until) {
  const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(
      until - std::chrono::steady_clock::now());
  pollfd wait{socket_, POLLIN, 0};
  if (left.count() <= 0 || ::poll(&wait, 1, static_cast<int>(left.count())) <= 0) {
    return Got::kNothing;
  }
  std::array<char, 16384> bytes{};
  const ssize_t got = ::recv(socket_, bytes.data(), bytes.size(), 0);
  if (got <= 0) {
    return Got::kEnd;
  }
  buffer_.append(bytes.data(), static_cast<std::size_t>(got));
  return Got::kBytes;
}

std::optional<RawAnswer> RawClient::read_answer(To to, std::chrono::milliseconds patience) {
  const auto until = std::chrono::steady_clock::now() + patience;
  std::size_t end = std::string::npos;
  while ((end = buffer_.find("\r\n\r\n")) == std::string::npos) {
    if (receive(until) != Got::kBytes) {
      return std::nullopt;
    }
  }
  std::optional<RawAnswer> answer = parse_head(std::string_view(buffer_).substr(0, end + 2));
  if (!answer) {
    return std::nullopt;
  }
  buffer_.erase(0, end + 4);
  const std::string length = answer->header("content-length");
  const std::size_t wanted = length.empty() || to == To::kHead ? 0 : std::stoul(length);
  while (buffer_.size() < wanted) {
    if (receive(until) != Got::kBytes) {
      return std::nullopt;
    }
  }
  answer->body = buffer_.substr(0, wanted);
  buffer_.erase(0, wanted);
  return answer;
}

std::optional<std::string> RawClient::read_to_end(std::chrono::milliseconds patience) {
  const auto until = std::chrono::steady_clock::now() + patience;
  for (;;) {
    const Got got = receive(until);
    if (got == Got::kEnd) {
      return std::exchange(buffer_, {});
    }
    if (got == Got::kNothing) {
      return std::nullopt;
    }
  }
}

}  // namespace benchwarden::http
