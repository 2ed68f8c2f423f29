#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "base/result.h"
#include "http/application.h"
#include "http/guard_settings.h"
#include "http/socket_guard.h"

namespace benchwarden::http {

struct ServerSettings {
  std::string address = "127.0.0.1";
  std::uint16_t port = 8417;  ///< 0: any free one
  /// The names this server answers under, see HostList.
  std::vector<std::string> hosts = {"127.0.0.1", "localhost", "[::1]"};
  /// Whole origins allowed beside our own, e.g. "https://book.example" behind a TLS proxy.
  std::vector<std::string> further_origins;
  int workers = 64;  ///< threads; each serves one connection for as long as it lasts
  std::size_t body_bytes_max = 65536;
  GuardSettings guard;
};

struct ServerCounters {
  GuardCounters guard;
  std::uint64_t library_faults = 0;  ///< of the whole process
};

/// The running server: HTTP/1.1 on one address until stopped or destroyed.
class Server {
 public:
  /// kInvalid: no such address, or settings that cannot work; kUnavailable: the address is taken.
  static base::Result<std::unique_ptr<Server>> start(const ServerSettings& settings,
                                                     Application application);

  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;
  Server(Server&&) = delete;
  Server& operator=(Server&&) = delete;
  virtual ~Server() = default;

  [[nodiscard]] virtual std::uint16_t port() const = 0;
  [[nodiscard]] virtual ServerCounters counters() const = 0;
  /// Lets handlers finish and their answers go out, cuts all else, and returns when no thread of
  /// the server runs any more. Does nothing the second time. Not to be called by a handler.
  virtual void stop() = 0;

 protected:
  Server() = default;
};

}  // namespace benchwarden::http
