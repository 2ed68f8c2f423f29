#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "base/result.h"
#include "http/application.h"
#include "http/route_table.h"
#include "http/static_files.h"

namespace benchwarden::http {

struct FileMatch {
  const StaticAnswer* answer = nullptr;
};
using Target = std::variant<RouteMatch, FileMatch>;

struct Answer {
  Response response;
  std::string person;  ///< for the access log
};

/// From a screened request to its answer: the route or file, sign-in, role, handler. The only
/// place where roles are checked and the only one where exceptions end.
class Dispatcher {
 public:
  /// Asserts that the route table has no fault.
  explicit Dispatcher(Application application);

  /// 404, or 405 with Allow.
  [[nodiscard]] base::Result<Target, Response> find(std::string_view method,
                                                    std::string_view path) const;
  /// 429 where too many requests came before it from the same device, session or address.
  [[nodiscard]] std::optional<Response> rate_refusal(const Request& request) const noexcept;
  /// The answer to somebody who may not call the route: 401, 403.
  [[nodiscard]] std::optional<Answer> refusal_of(const RouteMatch& match,
                                                 const Request& request) const noexcept;
  /// Never throws: whatever a handler throws becomes a 500 without detail and a line in the log.
  [[nodiscard]] Answer answer(const Target& target, const Request& request) const noexcept;

  static std::string pattern_of(const Target& target, const Request& request);

  void log(const AccessLine& line) const noexcept;
  void note_refused(const std::string& reason, const std::string& peer,
                    const std::string& person = {}) const noexcept;
  void log_fault(const std::string& line) const noexcept;

 private:
  /// The paired device, or else the session, or else the address.
  [[nodiscard]] std::string rate_key(const Request& request) const;
  /// Who calls, nobody where the route is open; or the refusal.
  [[nodiscard]] base::Result<Caller, Answer> admit(const RouteMatch& match,
                                                   const Request& request) const;
  [[nodiscard]] Answer call(const RouteMatch& match, const Request& request) const;

  Application application_;
  RouteTable routes_;
  StaticAnswers files_;
  std::unique_ptr<RateLimits> rates_;
};

}  // namespace benchwarden::http
