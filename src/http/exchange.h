#pragma once

#include <atomic>
#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <utility>

#include "http/connection_slot.h"
#include "http/dispatcher.h"
#include "http/message.h"
#include "http/request_head.h"
#include "http/screening.h"

namespace Poco::Net {
class HTTPServerRequest;
class HTTPServerResponse;
}  // namespace Poco::Net

namespace benchwarden::http {

/// What all connections of a server share.
struct Shared {
  Shared(Application application, ScreeningRules screening_rules, std::string strict_host_name)
      : dispatcher(std::move(application)),
        rules(std::move(screening_rules)),
        strict_host(std::move(strict_host_name)) {}

  Dispatcher dispatcher;
  ScreeningRules rules;
  std::string strict_host;  ///< see ServerSettings
  std::atomic<bool> is_stopping = false;
};

/// One request and its answer on the wire. Made when the head is complete, which is the last
/// moment to refuse before the library asks the client for its body ("100 Continue").
class Exchange {
 public:
  Exchange(const Shared& shared, ConnectionSlot& slot, const Poco::Net::HTTPServerRequest& request);

  /// Tells the library's response object, so that it does not send "100 Continue".
  void announce(Poco::Net::HTTPServerResponse& response) const;
  /// Reads the body exactly, answers, and sees that no unread byte is taken for a next request.
  void run(Poco::Net::HTTPServerRequest& request, Poco::Net::HTTPServerResponse& response);

 private:
  void screen(const RequestHead& head);
  /// What the route allows once it is known; false with the answer set.
  [[nodiscard]] bool admit_body(const RequestHead& head, const Target& target);
  [[nodiscard]] bool read_body(Poco::Net::HTTPServerRequest& request);
  [[nodiscard]] Response unread_answer() const;
  [[nodiscard]] bool is_strict() const;
  [[nodiscard]] bool send(Poco::Net::HTTPServerResponse& response) const;
  void log() const;

  const Shared& shared_;
  ConnectionSlot& slot_;
  std::chrono::microseconds worked_{};
  std::string method_;
  std::size_t body_length_ = 0;
  const OwnBody* own_body_ = nullptr;       ///< of the route
  std::optional<base::Gate::Place> place_;  ///< among its bodies
  bool is_body_read_ = false;               ///< or there is none
  std::optional<Target> target_;
  Request request_;
  Answer answer_;  ///< set at once when refused
};

}  // namespace benchwarden::http
