#include "http/socket_guard.h"

#include <fcntl.h>

#include <algorithm>

namespace benchwarden::http {

SocketGuard::SocketGuard(const GuardSettings& settings)
    : settings_(settings), watchdog_([this] { watch(); }) {}

SocketGuard::~SocketGuard() {
  {
    const std::lock_guard lock(mutex_);
    is_ended_ = true;
  }
  wake_.notify_all();
  watchdog_.join();
}

bool SocketGuard::admit(Key key, int descriptor, const std::string& peer) {
  const std::lock_guard lock(mutex_);
  // Left by a connection that the library dropped from its queue unserved.
  entries_.erase(key);
  const auto taken = places_taken();
  const auto found = taken.find(peer);
  const std::size_t of_peer = found == taken.end() ? 0 : found->second;
  if (of_peer >= settings_.connections_per_peer_max) {
    ++counters_.refused_peer;
    return false;
  }
  const bool is_full = entries_.size() >= settings_.connections_max;
  if (is_stopping_ || (is_full && !make_room(of_peer, taken))) {
    ++counters_.refused_full;
    return false;
  }
  const int own =
      ::fcntl(descriptor, F_DUPFD_CLOEXEC, 0);  // NOLINT(cppcoreguidelines-pro-type-vararg)
  if (own < 0) {
    ++counters_.refused_full;
    return false;
  }
  entries_[key] = Entry{std::make_shared<ConnectionSlot>(own, peer, settings_)};
  ++counters_.admitted;
  return true;
}

std::map<std::string, std::size_t> SocketGuard::places_taken() const {
  std::map<std::string, std::size_t> taken;
  for (const auto& [key, entry] : entries_) ++taken[entry.slot->peer()];
  return taken;
}

bool SocketGuard::make_room(std::size_t places_of_peer,
                            const std::map<std::string, std::size_t>& taken) {
  auto longest = entries_.end();
  std::size_t most = places_of_peer + 1;  // what the newcomer's address would have
  ConnectionSlot::Clock::time_point since;
  for (auto entry = entries_.begin(); entry != entries_.end(); ++entry) {
    const std::size_t places = taken.at(entry->second.slot->peer());
    const auto awaiting = entry->second.slot->awaiting_since();
    if (!awaiting || places <= places_of_peer + 1 || places < most) continue;
    if (places == most && longest != entries_.end() && *awaiting >= since) continue;
    longest = entry;
    most = places;
    since = *awaiting;
  }
  if (longest == entries_.end() || !longest->second.slot->cut_if_awaiting()) return false;
  ++counters_.cut_for_others;
  entries_.erase(longest);  // its worker, if it has one, still holds the slot
  return true;
}

std::shared_ptr<ConnectionSlot> SocketGuard::claim(Key key) {
  const std::lock_guard lock(mutex_);
  const auto found = entries_.find(key);
  if (found == entries_.end()) {
    return nullptr;
  }
  found->second.is_claimed = true;
  return found->second.slot;
}

void SocketGuard::release(Key key, const std::shared_ptr<ConnectionSlot>& slot) {
  const std::lock_guard lock(mutex_);
  const auto found = entries_.find(key);
  if (found != entries_.end() && found->second.slot == slot) {
    entries_.erase(found);
  }
}

void SocketGuard::begin_stop() {
  {
    const std::lock_guard lock(mutex_);
    is_stopping_ = true;
  }
  wake_.notify_all();
}

GuardCounters SocketGuard::counters() const {
  const std::lock_guard lock(mutex_);
  return counters_;
}

void SocketGuard::count_cut(Phase phase) {
  if (phase == Phase::kAwaiting) {
    ++counters_.cut_awaiting;
  } else if (phase == Phase::kBody) {
    ++counters_.cut_body;
  } else if (phase == Phase::kSending) {
    ++counters_.cut_sending;
  }
}

void SocketGuard::sweep() {
  const auto now = ConnectionSlot::Clock::now();
  for (auto entry = entries_.begin(); entry != entries_.end();) {
    ConnectionSlot& slot = *entry->second.slot;
    if (is_stopping_) {
      slot.cut_for_stop(now);
    }
    const std::optional<Phase> cut = slot.cut_if_due(now);
    if (cut) {
      count_cut(*cut);
    }
    // A worker that has taken it up releases it; else nobody would.
    entry = cut && !entry->second.is_claimed ? entries_.erase(entry) : std::next(entry);
  }
}

void SocketGuard::watch() {
  constexpr std::chrono::milliseconds kSweepWhileStopping{10};
  std::unique_lock lock(mutex_);
  while (!is_ended_) {
    sweep();
    wake_.wait_for(lock, is_stopping_ ? kSweepWhileStopping : settings_.sweep);
  }
}

}  // namespace benchwarden::http
