#include "http/server.h"

#include <Poco/Net/HTTPRequestHandler.h>
#include <Poco/Net/HTTPRequestHandlerFactory.h>
#include <Poco/Net/HTTPServerConnection.h>
#include <Poco/Net/HTTPServerParams.h>
#include <Poco/Net/HTTPServerRequest.h>
#include <Poco/Net/HTTPServerResponse.h>
#include <Poco/Net/ServerSocket.h>
#include <Poco/Net/TCPServer.h>
#include <Poco/ThreadPool.h>
#include <sys/socket.h>

#include <exception>
#include <utility>

#include "http/exchange.h"
#include "http/library_faults.h"
#include "http/plain_http.h"
#include "http/tls_context.h"

namespace benchwarden::http {
namespace {

namespace net = Poco::Net;

class ExchangeHandler : public net::HTTPRequestHandler {
 public:
  explicit ExchangeHandler(std::unique_ptr<Exchange> exchange) : exchange_(std::move(exchange)) {}

  void handleRequest(net::HTTPServerRequest& request, net::HTTPServerResponse& response) override {
    exchange_->run(request, response);
  }

 private:
  std::unique_ptr<Exchange> exchange_;
};

/// One for each connection, so that an exchange knows the slot it belongs to.
class ExchangeFactory : public net::HTTPRequestHandlerFactory {
 public:
  ExchangeFactory(std::shared_ptr<const Shared> shared, std::shared_ptr<ConnectionSlot> slot)
      : shared_(std::move(shared)), slot_(std::move(slot)) {}

  net::HTTPRequestHandler* createRequestHandler(const net::HTTPServerRequest& request) override {
    slot_->enter(Phase::kWorking);
    auto exchange = std::make_unique<Exchange>(*shared_, *slot_, request);
    exchange->announce(request.response());
    return std::make_unique<ExchangeHandler>(std::move(exchange)).release();
  }

 private:
  std::shared_ptr<const Shared> shared_;
  std::shared_ptr<ConnectionSlot> slot_;
};

/// Gives the slot back when the library is done with the connection. Its own descriptor is closed
/// by then; the other end sees the end when ours is closed too.
class GuardedConnection : public net::HTTPServerConnection {
 public:
  GuardedConnection(const net::StreamSocket& socket, const net::HTTPServerParams::Ptr& params,
                    std::shared_ptr<const Shared> shared, std::shared_ptr<SocketGuard> guard,
                    std::shared_ptr<ConnectionSlot> slot, bool is_tls)
      : HTTPServerConnection(socket, params, new ExchangeFactory(std::move(shared), slot)),
        is_tls_(is_tls),
        key_(socket.impl()),
        guard_(std::move(guard)),
        slot_(std::move(slot)) {}
  ~GuardedConnection() override { guard_->release(key_, slot_); }
  GuardedConnection(const GuardedConnection&) = delete;
  GuardedConnection& operator=(const GuardedConnection&) = delete;
  GuardedConnection(GuardedConnection&&) = delete;
  GuardedConnection& operator=(GuardedConnection&&) = delete;

  void run() override {
    const auto first = is_tls_ ? slot_->await_first_byte() : std::nullopt;
    if (first && is_plain_http(*first)) {
      turn_away();
    } else {
      HTTPServerConnection::run();
    }
  }

 private:
  /// Somebody typed the address without https://, and is told so.
  void turn_away() {
    constexpr std::size_t kDrainedBytesMax = std::size_t{64} * 1024;
    slot_->enter(Phase::kSending);
    slot_->send_bare(plain_http_answer());
    slot_->half_close_and_drain(kDrainedBytesMax);
    socket().close();
  }

  bool is_tls_;
  SocketGuard::Key key_;
  std::shared_ptr<SocketGuard> guard_;
  std::shared_ptr<ConnectionSlot> slot_;
};

/// For a connection whose deadline came before a worker did: it is cut already.
class ClosedConnection : public net::TCPServerConnection {
 public:
  using TCPServerConnection::TCPServerConnection;
  void run() override { socket().close(); }
};

class GuardedConnectionFactory : public net::TCPServerConnectionFactory {
 public:
  GuardedConnectionFactory(net::HTTPServerParams::Ptr params, std::shared_ptr<const Shared> shared,
                           std::shared_ptr<SocketGuard> guard, bool is_tls)
      : params_(std::move(params)),
        shared_(std::move(shared)),
        guard_(std::move(guard)),
        is_tls_(is_tls) {}

  net::TCPServerConnection* createConnection(const net::StreamSocket& socket) override {
    std::shared_ptr<ConnectionSlot> slot = guard_->claim(socket.impl());
    if (!slot) {
      return std::make_unique<ClosedConnection>(socket).release();
    }
    return std::make_unique<GuardedConnection>(socket, params_, shared_, guard_, std::move(slot),
                                               is_tls_)
        .release();
  }

 private:
  net::HTTPServerParams::Ptr params_;
  std::shared_ptr<const Shared> shared_;
  std::shared_ptr<SocketGuard> guard_;
  bool is_tls_;
};

class AdmissionFilter : public net::TCPServerConnectionFilter {
 public:
  explicit AdmissionFilter(std::shared_ptr<SocketGuard> guard) : guard_(std::move(guard)) {}

  bool accept(const net::StreamSocket& socket) override {
    // peerAddress() throws when the other end is gone already; the caller counts that as a fault.
    return guard_->admit(socket.impl(), socket.impl()->sockfd(),
                         socket.peerAddress().host().toString());
  }

 private:
  std::shared_ptr<SocketGuard> guard_;
};

Poco::Timespan timespan(std::chrono::milliseconds duration) {
  return {static_cast<Poco::Timespan::TimeDiff>(duration.count()) * 1000};
}

net::HTTPServerParams::Ptr params_for(const ServerSettings& settings) {
  net::HTTPServerParams::Ptr params = new net::HTTPServerParams;
  params->setMaxThreads(settings.workers);
  params->setMaxQueued(static_cast<int>(settings.guard.connections_max));
  // For each receive. The guard's deadlines are for the whole and come first.
  params->setTimeout(timespan(settings.guard.header + settings.guard.body));
  params->setKeepAlive(true);
  params->setKeepAliveTimeout(timespan(settings.guard.idle));
  params->setMaxKeepAliveRequests(1000);
  // The library wakes its idle threads once on stopping; one that was just about to wait would
  // sleep this long.
  params->setThreadIdleTime(timespan(std::chrono::milliseconds(250)));
  return params;
}

net::ServerSocket listen_on(const ServerSettings& settings) {
  net::ServerSocket socket =
      settings.certificate ? tls_server_socket(*settings.certificate) : net::ServerSocket();
  // Without the third argument the library also sets SO_REUSEPORT, and a second server could take
  // half of our connections unnoticed.
  socket.bind(net::SocketAddress(settings.address, settings.port), true, false);
  // Room for a crowd that comes at once: whom the system turns away waits a second to ask again.
  socket.listen(512);
  return socket;
}

class PocoServer : public Server {
 public:
  PocoServer(const ServerSettings& settings, Application application,
             const net::ServerSocket& socket)
      : port_(socket.address().port()),
        certificate_(settings.certificate),
        shared_(share(settings, std::move(application), port_)),
        guard_(std::make_shared<SocketGuard>(settings.guard)),
        // Own and roomy: a shared pool can run dry, and a thread is handed back a little after
        // the library has stopped counting it.
        pool_(4, settings.workers + 4),
        server_(factory(settings), pool_, socket, params_for(settings)) {
    server_.setConnectionFilter(new AdmissionFilter(guard_));
    server_.start();
  }
  ~PocoServer() override { halt(); }
  PocoServer(const PocoServer&) = delete;
  PocoServer& operator=(const PocoServer&) = delete;
  PocoServer(PocoServer&&) = delete;
  PocoServer& operator=(PocoServer&&) = delete;

  [[nodiscard]] std::uint16_t port() const override { return port_; }
  [[nodiscard]] ServerCounters counters() const override {
    return {guard_->counters(), library_faults_counted()};
  }
  void stop() override { halt(); }

 private:
  static std::shared_ptr<Shared> share(const ServerSettings& settings, Application application,
                                       std::uint16_t port) {
    ScreeningRules rules{HostList(settings.hosts, port, settings.host_addresses),
                         HostList(settings.tls_hosts, port), application.session_cookie,
                         application.device_cookie, settings.body_bytes_max};
    return std::make_shared<Shared>(std::move(application), std::move(rules), settings.strict_host);
  }

  net::TCPServerConnectionFactory::Ptr factory(const ServerSettings& settings) {
    return new GuardedConnectionFactory(params_for(settings), shared_, guard_,
                                        settings.certificate != nullptr);
  }

  void halt() {
    if (shared_->is_stopping.exchange(true)) {
      return;
    }
    guard_->begin_stop();
    // Wakes the thread that accepts, which would else notice only at its next look around.
    ::shutdown(server_.socket().impl()->sockfd(), SHUT_RDWR);
    server_.stop();
    pool_.joinAll();
  }

  std::uint16_t port_;
  std::shared_ptr<const ServingCertificate> certificate_;  ///< the connections look at it
  std::shared_ptr<Shared> shared_;
  std::shared_ptr<SocketGuard> guard_;
  Poco::ThreadPool pool_;
  net::TCPServer server_;
};

base::Status<> check(const ServerSettings& settings) {
  if (settings.workers < 1 || settings.guard.connections_max < 1 ||
      settings.guard.connections_per_peer_max < 1 || settings.hosts.empty()) {
    return base::Error{base::ErrorCode::kInvalid,
                       "At least one worker, one connection and one host name are needed."};
  }
  return base::Done{};
}

}  // namespace

struct Listener::Socket {
  net::ServerSocket socket;
};

Listener::Listener(std::unique_ptr<Socket> socket) : socket_(std::move(socket)) {}
Listener::Listener(Listener&&) noexcept = default;
Listener& Listener::operator=(Listener&&) noexcept = default;
Listener::~Listener() = default;

std::uint16_t Listener::port() const { return socket_->socket.address().port(); }

base::Result<Listener> Listener::open(const ServerSettings& settings) {
  try {
    return Listener(std::make_unique<Socket>(Socket{listen_on(settings)}));
  } catch (const Poco::Exception& thrown) {
    return base::Error{base::ErrorCode::kUnavailable, "Cannot listen on " + settings.address + ":" +
                                                          std::to_string(settings.port) + ": " +
                                                          thrown.displayText()};
  }
}

base::Result<std::unique_ptr<Server>> Server::start(const ServerSettings& settings,
                                                    Listener listener, Application application) {
  if (const base::Status<> checked = check(settings); !checked) {
    return checked.error();
  }
  if (const auto fault = RouteTable::fault_in(application.routes)) {
    return base::Error{base::ErrorCode::kInvalid, "The route table: " + *fault};
  }
  count_library_faults();
  try {
    return std::unique_ptr<Server>(
        std::make_unique<PocoServer>(settings, std::move(application), listener.socket_->socket));
  } catch (const Poco::Exception& thrown) {
    return base::Error{base::ErrorCode::kUnavailable, "Cannot serve: " + thrown.displayText()};
  }
}

base::Result<std::unique_ptr<Server>> Server::start(const ServerSettings& settings,
                                                    Application application) {
  auto listener = Listener::open(settings);
  if (!listener) return listener.error();
  return start(settings, *std::move(listener), std::move(application));
}

}  // namespace benchwarden::http
