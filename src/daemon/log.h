#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <deque>
#include <iosfwd>
#include <mutex>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/clock.h"
#include "base/json.h"

namespace benchwarden::daemon {

/// Words and meaning of RFC 5424, section 6.2.1; what needs nobody is said nowhere.
enum class Severity {
  kError,    ///< something was not done that should have been
  kWarning,  ///< it was done, and somebody has to see to something
  kNotice,   ///< ordinary, and worth a look when something is looked for
};

/// What the running daemon says of itself: a JSON object (RFC 8259) on each line, with "time",
/// "severity", "event" and "detail" first. Nothing of what is recorded, no name and no secret gets
/// in. Safe to use from many threads.
class Log {
 public:
  Log(const base::Clock& clock, std::ostream& out) : clock_(clock), out_(out) {}

  void write(Severity severity, std::string_view event, std::string_view detail,
             base::JsonObject more = {});
  /// Not again what was said of the event in the same words since `settled`, so that what goes
  /// wrong every half minute does not fill the log.
  void write_once(Severity severity, std::string_view event, const std::string& detail);
  /// What was wrong is over: it is said again when it comes back.
  void settled(std::string_view event);

  /// The last lines, oldest first.
  [[nodiscard]] std::vector<base::Json> recent() const;
  /// How many there were of each severity, in its order.
  static constexpr std::size_t kSeverities = 3;
  [[nodiscard]] std::array<std::uint64_t, kSeverities> counts() const;

  static constexpr std::size_t kRecentMax = 20;

 private:
  const base::Clock& clock_;
  std::ostream& out_;
  mutable std::mutex mutex_;
  std::deque<base::Json> recent_;
  std::array<std::uint64_t, kSeverities> counts_{};
  std::set<std::pair<std::string, std::string>, std::less<>> said_;  ///< event, detail
};

}  // namespace benchwarden::daemon
