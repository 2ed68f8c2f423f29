#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace benchwarden::access {

/// From what kind of place somebody signs in.
enum class Place {
  kMachine,    ///< the very machine the daemon runs on
  kDevice,     ///< a paired device
  kElsewhere,  ///< any other browser
};
std::string_view place_name(Place place);
std::optional<Place> place_from_name(std::string_view name);

/// Where a sign-in comes from.
struct From {
  Place place = Place::kElsewhere;
  std::string address;                ///< of the other end, without port
  std::optional<std::string> device;  ///< "d1": the paired one, of kDevice

  /// What wrong tries are counted by.
  [[nodiscard]] const std::string& counted_as() const { return device ? *device : address; }
};

/// An address of the machine itself, in numbers: 127.0.0.0/8, ::1, and the first as IPv6 writes it.
bool is_loopback(std::string_view address);

}  // namespace benchwarden::access
