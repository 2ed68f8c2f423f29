#include "access/address_line.h"

#include <cassert>
#include <utility>

#include "access/place.h"

namespace benchwarden::access {
AddressLine::Place::Place(Place&& other) noexcept
    : line_(std::exchange(other.line_, nullptr)), address_(std::move(other.address_)) {}

AddressLine::Place::~Place() {
  if (line_ != nullptr) line_->leave(address_);
}

std::optional<AddressLine::Place> AddressLine::join(std::string_view address) {
  const std::lock_guard lock(mutex_);
  const auto found = under_way_.try_emplace(std::string(address), 0).first;
  if (found->second >= per_address_max_ && !is_loopback(address)) return std::nullopt;
  ++found->second;
  return std::optional<Place>(std::in_place, this, address);
}

void AddressLine::leave(const std::string& address) {
  const std::lock_guard lock(mutex_);
  const auto found = under_way_.find(address);
  assert(found != under_way_.end());
  if (--found->second == 0) under_way_.erase(found);
}

}  // namespace benchwarden::access
