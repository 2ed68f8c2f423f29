#pragma once

#include <chrono>
#include <cstddef>

namespace benchwarden::http {

/// What one connection may take. A connection past a deadline is cut, so that clients which stay
/// silent or drip cannot hold the workers.
struct GuardSettings {
  std::size_t connections_max = 60;           ///< all peers; keep it at or below the workers
  std::size_t connections_per_peer_max = 32;  ///< one address
  std::chrono::milliseconds header{5000};     ///< from connecting to the end of the first head
  std::chrono::milliseconds idle{5000};       ///< between two requests, on top of `header`
  std::chrono::milliseconds body{10000};      ///< from the end of the head to the end of the body
  std::chrono::milliseconds sending{30000};   ///< until the last byte of the answer is handed over
  std::chrono::milliseconds draining{1000};   ///< reading on after a refusal, see ConnectionSlot
  std::chrono::milliseconds sweep{200};       ///< how often deadlines are looked at
  std::chrono::milliseconds stopping{300};    ///< for answers being sent when the server stops
};

}  // namespace benchwarden::http
