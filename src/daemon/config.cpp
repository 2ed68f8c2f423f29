#include "daemon/config.h"

#include <arpa/inet.h>

#include <algorithm>
#include <cstdlib>

#include "daemon/text_file.h"
#include "http/host_list.h"

namespace benchwarden::daemon {
namespace {

std::optional<int> maybe_whole_between(base::TomlReader& reader, std::string_view name, int lowest,
                                       int highest) {
  const auto value = reader.maybe_integer(name);
  if (!value) return std::nullopt;
  if (*value >= lowest && *value <= highest) return static_cast<int>(*value);
  reader.fault("'" + std::string(name) + "' is " + std::to_string(*value) +
               "; accepted: " + std::to_string(lowest) + " to " + std::to_string(highest));
  return std::nullopt;
}

int whole_between(base::TomlReader& reader, std::string_view name, int fallback, int lowest,
                  int highest) {
  return maybe_whole_between(reader, name, lowest, highest).value_or(fallback);
}

/// How tablets reach the daemon; what fits together is for network_of to judge.
void read_network(base::TomlReader& reader, Config& config) {
  config.https = reader.maybe_boolean("https");
  config.behind_proxy = reader.maybe_boolean("behind_proxy").value_or(config.behind_proxy);
  config.name = reader.text_or("name", config.name);
  if (const auto port = maybe_whole_between(reader, "set_up_port", 0, 65535)) {
    config.set_up_port = static_cast<std::uint16_t>(*port);
  }
  config.certificate = reader.text_or("certificate", "");
  config.certificate_key = reader.text_or("certificate_key", "");
}

void read_reports(base::TomlReader& reader, Config& config) {
  config.report_folder = reader.text_or("report_folder", "");
  config.report_paper = reader.text_or("report_paper", config.report_paper);
  if (config.report_paper != "a4" && config.report_paper != "letter") {
    reader.fault("'report_paper' is '" + config.report_paper + "'; accepted: a4, letter");
  }
}

void read_names_shown(base::TomlReader& reader, Config& config) {
  const std::string how = reader.text_or("names_shown", "whole");
  if (how == "initials") config.names_shown = access::NamesShown::kInitials;
  if (how != "whole" && how != "initials") {
    reader.fault("'names_shown' is '" + how + "'; accepted: whole, initials");
  }
}

void read_backups(base::TomlReader& reader, Config& config) {
  config.backup_folder = reader.text_or("backup_folder", "");
  config.backup_at = whole_between(reader, "backup_at", config.backup_at, 0, 23);
  workshop::BackupsKept& kept = config.backups_kept;
  kept.days = whole_between(reader, "backups_daily", kept.days, 1, 366);
  kept.weeks = whole_between(reader, "backups_weekly", kept.weeks, 0, 520);
  kept.months = whole_between(reader, "backups_monthly", kept.months, 0, 1200);
}

}  // namespace

std::filesystem::path default_data_folder() {
  // Read once at start, before any thread.
  if (const char* data = std::getenv("XDG_DATA_HOME");
      data != nullptr && *data != '\0') {  // NOLINT(concurrency-mt-unsafe)
    return std::filesystem::path(data) / "benchwarden";
  }
  const char* home = std::getenv("HOME");  // NOLINT(concurrency-mt-unsafe)
  return std::filesystem::path(home == nullptr ? "." : home) / ".local/share/benchwarden";
}

bool is_ip_address(const std::string& text) {
  in6_addr bytes{};
  return ::inet_pton(AF_INET, text.c_str(), &bytes) == 1 ||
         ::inet_pton(AF_INET6, text.c_str(), &bytes) == 1;
}

base::Result<Config, base::FileFaults> read_config(const std::filesystem::path& file,
                                                   Config defaults) {
  const auto text = read_text_file(file);
  if (!text) return base::FileFaults{{file.string(), 0, text.error().detail}};
  const auto table = base::parse_toml(*text, file.string());
  if (!table) return table.error();

  base::FileFaults faults;
  base::TomlReader reader(*table, file.string(), faults);
  Config config = std::move(defaults);
  config.data_folder = reader.text_or("data_folder", config.data_folder.string());
  if (config.data_folder.empty()) reader.fault("'data_folder' is empty; accepted: a path");
  config.address = reader.text_or("address", config.address);
  if (!is_ip_address(config.address)) {
    reader.fault("'address' is '" + config.address + "'; accepted: " + kAddressAccepted);
  }
  config.port = static_cast<std::uint16_t>(whole_between(reader, "port", config.port, 0, 65535));
  read_network(reader, config);
  read_reports(reader, config);
  read_backups(reader, config);
  read_names_shown(reader, config);
  for (std::string& name : reader.texts("host_names")) {
    if (!http::is_host(name)) {
      reader.fault("'host_names' has '" + name +
                   "'; accepted: names of hosts such as book.example, each with a port or without");
    }
    config.host_names.push_back(std::move(name));
  }
  config.connections_max = whole_between(reader, "connections_max", config.connections_max, 1, 500);
  config.connections_per_peer_max =
      std::min(config.connections_per_peer_max, config.connections_max);
  config.connections_per_peer_max =
      whole_between(reader, "connections_per_peer_max", config.connections_per_peer_max, 1,
                    config.connections_max);
  reader.finish();
  if (!faults.empty()) return faults;
  return config;
}

}  // namespace benchwarden::daemon
