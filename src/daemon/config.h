#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "base/result.h"
#include "base/toml.h"

namespace benchwarden::daemon {

/// What a workshop can set in its configuration file; every value has a default that works on the
/// machine itself.
struct Config {
  std::filesystem::path data_folder;
  std::string address = "127.0.0.1";    ///< an IP address of this machine
  std::uint16_t port = 8417;            ///< 0: any free one
  std::vector<std::string> host_names;  ///< further names this daemon answers to
  int connections_max = 60;             ///< 1 … 500
  int connections_per_peer_max = 32;    ///< 1 … connections_max
};

/// ~/.local/share/benchwarden, or what the XDG base directory specification says of it.
std::filesystem::path default_data_folder();

/// Reads a configuration file over `defaults`.
base::Result<Config, base::FileFaults> read_config(const std::filesystem::path& file,
                                                   Config defaults);

}  // namespace benchwarden::daemon
