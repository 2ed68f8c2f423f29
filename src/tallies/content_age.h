#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "tallies/state.h"

namespace benchwarden::tallies {

/// The container out of which an event kMovedIn came; "" where its other end no longer acts.
std::string source_of(const State& state, const Event& in);

/// How old what stands in containers is. What is moved on is as old as the oldest content of the
/// container it leaves at that moment, so pouring over makes nothing younger. What arises by a move
/// out of a working container begins with it.
///
/// Each event is looked at once in the life of this object, however the moves are entangled.
class ContentAges {
 public:
  /// Since when content ages in a container; none for one in which it does not.
  using Since = std::function<std::optional<base::Instant>(const std::string& container)>;

  /// Content ages in containers that count waste, from the beginning.
  explicit ContentAges(const State& state);
  ContentAges(const State& state, Since since) : state_(state), ask_since_(std::move(since)) {}

  /// Since when the oldest content at `until` (exclusive) ages; none when nothing came in since the
  /// container was last recorded as empty.
  std::optional<base::Instant> oldest(const std::string& container, base::Instant until);

 private:
  /// The oldest content of one standing, as far as its events were looked at.
  struct Course {
    std::size_t looked_to = 0;
    /// From the event on, where it became another: ascending, each older than the one before.
    std::vector<std::pair<std::size_t, base::Instant>> steps;
  };

  std::optional<base::Instant> since(const std::string& container);
  std::optional<base::Instant> before(const std::string& container, std::size_t index);
  base::Instant start_of(const Event& in);
  [[nodiscard]] std::optional<base::Instant> carried_by(const Event& in);

  const State& state_;
  Since ask_since_;
  std::map<std::string, std::optional<base::Instant>> since_;  ///< as it was answered
  int moves_ = 0;                                              ///< followed back just now
  /// By container and the first event of a standing.
  std::map<std::pair<std::string, std::size_t>, Course> courses_;
};

}  // namespace benchwarden::tallies
