#pragma once

#include <chrono>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace benchwarden::http {

struct RawAnswer {
  int status = 0;
  std::map<std::string, std::string> headers;  ///< names in lower case
  std::string body;

  [[nodiscard]] std::string header(const std::string& name) const;
  [[nodiscard]] bool closes() const { return header("connection") == "Close"; }
};

/// A client that sends exactly the bytes it is told to, well formed or not.
class RawClient {
 public:
  /// From another of this machine's own addresses, where one is named.
  explicit RawClient(std::uint16_t port, const std::string& from = "127.0.0.1");
  ~RawClient();
  RawClient(const RawClient&) = delete;
  RawClient& operator=(const RawClient&) = delete;

  /// False when the other end does not take the bytes any more.
  [[nodiscard]] bool send(std::string_view bytes) const;
  /// Nothing more will be sent; answers can still be read.
  void end_sending() const;
  /// The next answer by its Content-Length; nothing at the end of input, on garbage or after
  /// `patience`. For the answer to a HEAD say kHead.
  enum class To { kOther, kHead };
  std::optional<RawAnswer> read_answer(To to = To::kOther,
                                       std::chrono::milliseconds patience = kPatience);
  /// All bytes until the other end closes; nothing when it does not within `patience`.
  std::optional<std::string> read_to_end(std::chrono::milliseconds patience = kPatience);

  static constexpr std::chrono::milliseconds kPatience{8000};

 private:
  enum class Got { kBytes, kEnd, kNothing };
  Got receive(std::chrono::steady_clock::time_point until);

  int socket_;
  std::string buffer_;
};

}  // namespace benchwarden::http
