#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "access/access.h"
#include "http/raw_client.h"
#include "http/server.h"
#include "workshop/test_workshop.h"

namespace benchwarden::soak {

/// A workshop that is served with its whole interface over HTTP, with people who can sign in:
/// p1 and p2 are managers, p3 is a technician, p4 an inspector who may read everything.
class ServedWorkshop {
 public:
  static constexpr const char* kPin = "274913";

  /// With room for so many connections at once, and a thread for each.
  explicit ServedWorkshop(std::size_t connections);
  ~ServedWorkshop() { stop(); }
  ServedWorkshop(const ServedWorkshop&) = delete;
  ServedWorkshop& operator=(const ServedWorkshop&) = delete;

  void stop() { server_->stop(); }
  [[nodiscard]] std::uint16_t port() const { return server_->port(); }
  [[nodiscard]] std::string host() const { return "127.0.0.1:" + std::to_string(port()); }
  workshop::TestWorkshop& workshop() { return workshop_; }

  /// The token of a new session; "" where that person may not sign in.
  [[nodiscard]] std::string sign_in(const std::string& person) const;
  [[nodiscard]] bool lets_in(const std::string& token) const {
    return access_->session(token).ok();
  }
  /// A whole request; `token` may be empty.
  [[nodiscard]] std::string request(const std::string& method, const std::string& path,
                                    const std::string& token, const std::string& body = "",
                                    const std::string& type = "application/json") const;
  /// What the server said of faults of its own.
  [[nodiscard]] std::vector<std::string> faults() const;

 private:
  http::Application application();

  workshop::TestWorkshop workshop_;
  std::unique_ptr<access::Access> access_;
  mutable std::mutex mutex_;
  std::vector<std::string> faults_;
  std::unique_ptr<http::Server> server_;
};

}  // namespace benchwarden::soak
