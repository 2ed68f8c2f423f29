#include "daemon/log.h"

#include <ostream>
#include <utility>

#include "base/text.h"
#include "base/timestamp.h"

namespace benchwarden::daemon {
namespace {

constexpr std::array<std::string_view, Log::kSeverities> kWords{"error", "warning", "notice"};
/// Of the faults that were said; a disk can fail in more words than are worth keeping.
constexpr std::size_t kSaidMax = 200;

}  // namespace

void Log::write(Severity severity, std::string_view event, std::string_view detail,
                base::JsonObject more) {
  const auto index = static_cast<std::size_t>(severity);
  base::JsonObject line{{"time", base::format_rfc3339_utc(clock_.now())},
                        {"severity", kWords.at(index)},
                        {"event", event},
                        {"detail", base::one_line(std::string(detail))}};
  for (base::JsonMember& member : more) line.push_back(std::move(member));
  base::Json whole(std::move(line));
  const std::lock_guard lock(mutex_);
  out_.clear();  // a disk that was full for one line may have room for this one
  out_ << base::write_json(whole) + "\n" << std::flush;
  ++counts_.at(index);
  recent_.push_back(std::move(whole));
  if (recent_.size() > kRecentMax) recent_.pop_front();
}

void Log::write_once(Severity severity, std::string_view event, const std::string& detail) {
  {
    const std::lock_guard lock(mutex_);
    if (said_.size() >= kSaidMax) said_.clear();
    if (!said_.emplace(event, detail).second) return;
  }
  write(severity, event, detail);
}

void Log::settled(std::string_view event) {
  const std::lock_guard lock(mutex_);
  std::erase_if(said_, [&](const auto& one) { return one.first == event; });
}

std::vector<base::Json> Log::recent() const {
  const std::lock_guard lock(mutex_);
  return {recent_.begin(), recent_.end()};
}

std::array<std::uint64_t, Log::kSeverities> Log::counts() const {
  const std::lock_guard lock(mutex_);
  return counts_;
}

}  // namespace benchwarden::daemon
