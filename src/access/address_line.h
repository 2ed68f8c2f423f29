#pragma once

#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>

namespace benchwarden::access {

/// How many sign-ins of each address are under way. PINs are hashed few at once; without this, one
/// device of the network could fill every place and the line before it.
class AddressLine {
 public:
  /// One sign-in under way, for as long as it lives.
  class Place {
   public:
    Place(AddressLine* line, std::string_view address) : line_(line), address_(address) {}
    Place(Place&& other) noexcept;
    Place(const Place&) = delete;
    Place& operator=(const Place&) = delete;
    Place& operator=(Place&&) = delete;
    ~Place();

   private:
    AddressLine* line_;
    std::string address_;
  };

  explicit AddressLine(int per_address_max) : per_address_max_(per_address_max) {}

  /// None: that address has its number under way. Loopback is never refused: all clients behind a
  /// proxy on this machine come from there.
  std::optional<Place> join(std::string_view address);

 private:
  void leave(const std::string& address);

  const int per_address_max_;
  std::mutex mutex_;
  std::map<std::string, int, std::less<>> under_way_;
};

}  // namespace benchwarden::access
