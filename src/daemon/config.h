#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "access/shown_name.h"
#include "base/result.h"
#include "base/toml.h"
#include "workshop/backup_rotation.h"

namespace benchwarden::daemon {

/// What a workshop can set in its configuration file; every value has a default that works on the
/// machine itself.
struct Config {
  std::filesystem::path data_folder;
  std::string address = "127.0.0.1";         ///< an IPv4 or IPv6 address of this machine, no name
  std::uint16_t port = 8417;                 ///< 0: any free one
  std::optional<bool> https;                 ///< unset: wherever other machines reach the address
  std::string name;                          ///< in the network; empty: the machine's own, .local
  std::optional<std::uint16_t> set_up_port;  ///< of the page for tablets; 0: any free one
  std::filesystem::path certificate;  ///< PEM got elsewhere; empty: by an authority of our own
  std::filesystem::path certificate_key;
  bool behind_proxy = false;  ///< one on this machine: what comes from here comes from anywhere
  std::filesystem::path report_folder;  ///< for the report of every month that ends; empty: none
  std::string report_paper = "a4";      ///< or "letter"
  std::filesystem::path backup_folder;  ///< for a backup a day; empty: none
  int backup_at = 3;                    ///< hour of the workshop's day, 0 … 23
  workshop::BackupsKept backups_kept;
  access::NamesShown names_shown = access::NamesShown::kWhole;
  std::vector<std::string> host_names;  ///< further names this daemon answers to
  int connections_max = 60;             ///< 1 … 500
  int connections_per_peer_max = 32;    ///< 1 … connections_max
};

/// Of the page for tablets where none is set.
inline constexpr std::uint16_t kSetUpPort = 8418;

/// ~/.local/share/benchwarden, or what the XDG base directory specification says of it.
std::filesystem::path default_data_folder();

/// "127.0.0.1", "::1": what can be listened on without asking anybody for a name.
bool is_ip_address(const std::string& text);
inline constexpr const char* kAddressAccepted =
    "an IPv4 or IPv6 address of this machine without brackets or port, such as 127.0.0.1 or ::1";

/// Reads a configuration file over `defaults`.
base::Result<Config, base::FileFaults> read_config(const std::filesystem::path& file,
                                                   Config defaults);

}  // namespace benchwarden::daemon
