#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "base/result.h"
#include "http/application.h"
#include "http/guard_settings.h"
#include "http/host_list.h"
#include "http/serving_certificate.h"
#include "http/socket_guard.h"

namespace benchwarden::http {

struct ServerSettings {
  std::string address = "127.0.0.1";
  std::uint16_t port = 8417;  ///< 0: any free one
  /// The names this server answers under, see HostList.
  std::vector<std::string> hosts = {"127.0.0.1", "localhost", "[::1]"};
  HostAddresses host_addresses = HostAddresses::kListed;
  /// What is shown to those who connect, by TLS; without it the server speaks plain HTTP.
  std::shared_ptr<const ServingCertificate> certificate;
  /// The one host name whose browsers are told never to come without TLS (RFC 6797); empty: none.
  std::string strict_host;
  /// Of `hosts`, those that a proxy speaks TLS for.
  std::vector<std::string> tls_hosts;
  int workers = 64;  ///< threads; each serves one connection for as long as it lasts
  std::size_t body_bytes_max = 65536;
  GuardSettings guard;
};

struct ServerCounters {
  GuardCounters guard;
  std::uint64_t library_faults = 0;  ///< of the whole process
};

/// An address and port of ours. Who connects waits until a server is started on it, so that what
/// the server says of itself can name the port.
class Listener {
 public:
  /// kUnavailable: the address is taken, or none of this machine.
  static base::Result<Listener> open(const ServerSettings& settings);

  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;
  Listener(Listener&&) noexcept;
  Listener& operator=(Listener&&) noexcept;
  ~Listener();

  [[nodiscard]] std::uint16_t port() const;

 private:
  friend class Server;
  struct Socket;
  explicit Listener(std::unique_ptr<Socket> socket);
  std::unique_ptr<Socket> socket_;
};

/// The running server: HTTP/1.1 on one address until stopped or destroyed.
class Server {
 public:
  /// On a listener opened with the same settings. kInvalid: settings or routes that cannot work.
  static base::Result<std::unique_ptr<Server>> start(const ServerSettings& settings,
                                                     Listener listener, Application application);
  /// Both at once.
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
