#pragma once

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "http/raw_client.h"
#include "http/server.h"

namespace benchwarden::http {

/// Slack over a deadline for sweeping and for a busy machine.
inline constexpr std::chrono::milliseconds kSlack{1500};

/// A running server with a tiny application and short deadlines.
///   GET  /                      a static file, had packed, too
///   GET  /api/v1/hidden         counts how often it was reached
///   GET  /api/v1/large          8 MiB
///   GET  /api/v1/secret/{word}  any role
///   GET  /api/v1/slow           takes 300 ms
///   GET  /api/v1/throws/{what}  throws
///   POST /api/v1/echo           open; gives the body back, counts
///   POST /api/v1/manage         manager only
///   POST /api/v1/upload         manager only; PNG up to 200 000 bytes in 0.8 s, one at a time;
///                               gives the number of bytes back
class ServerFixture : public ::testing::Test {
 protected:
  void SetUp() override { start(); }
  void TearDown() override;

  static ServerSettings short_settings();
  void start(const ServerSettings& settings = short_settings());

  [[nodiscard]] std::uint16_t port() const { return server_->port(); }
  [[nodiscard]] std::string host() const { return "127.0.0.1:" + std::to_string(port()); }
  /// A well-formed head with our Host, further fields each ended by CRLF, and the blank line.
  [[nodiscard]] std::string head(const std::string& line, const std::string& fields = "") const;
  [[nodiscard]] std::string get(const std::string& path) const;
  [[nodiscard]] std::string post(const std::string& path, const std::string& body) const;
  /// Sends the bytes on a new connection and reads one answer.
  [[nodiscard]] std::optional<RawAnswer> ask(const std::string& bytes) const;
  /// The same, and then expects the end of the connection without a second answer.
  [[nodiscard]] std::optional<RawAnswer> ask_once(const std::string& bytes) const;

  [[nodiscard]] std::vector<std::string> faults() const;
  [[nodiscard]] std::vector<AccessLine> access_lines() const;

  std::unique_ptr<Server> server_;
  std::atomic<int> hidden_reached_ = 0;
  std::atomic<int> echoes_ = 0;

 private:
  Application application();
  std::vector<Route> routes();

  mutable std::mutex mutex_;
  std::vector<std::string> faults_;
  std::vector<AccessLine> lines_;
};

}  // namespace benchwarden::http
