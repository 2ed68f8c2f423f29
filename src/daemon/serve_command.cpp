#include <csignal>
#include <iostream>
#include <string>

#include "daemon/open_workshop.h"
#include "daemon/system_clock.h"
#include "http/api.h"
#include "http/host_list.h"
#include "http/server.h"
#include "workshop/rule_adoption.h"

namespace benchwarden::daemon {
namespace {

/// The signals that end the daemon, kept from every thread that is started from here on.
sigset_t hold_back_signals() {
  sigset_t signals{};
  sigemptyset(&signals);
  sigaddset(&signals, SIGTERM);
  sigaddset(&signals, SIGINT);
  pthread_sigmask(SIG_BLOCK, &signals, nullptr);
  return signals;
}

/// Until a signal says so. Meanwhile a snapshot is kept after every so many entries, so that a
/// start is quick also when the machine went down without one.
void wait_for_end(const sigset_t& signals, workshop::LiveState& live) {
  constexpr timespec kLookEvery{30, 0};
  constexpr std::uint64_t kEntriesKeptAfter = 10'000;
  while (sigtimedwait(&signals, nullptr, &kLookEvery) < 0) {
    const auto kept = live.keep_after(kEntriesKeptAfter);
    if (!kept) std::cerr << "benchwarden: no snapshot kept: " + kept.error().detail + "\n";
  }
}

http::StaticFiles app_files(const DataFileSet& files) {
  http::StaticFiles served;
  for (const base::DataFile& file : files.all()) {
    if (file.path == "app/index.html") served["/"] = {file.bytes, "text/html; charset=utf-8"};
    if (file.path == "app/app.js")
      served["/app.js"] = {file.bytes, "text/javascript; charset=utf-8"};
    if (file.path == "app/app.css") served["/app.css"] = {file.bytes, "text/css; charset=utf-8"};
  }
  return served;
}

http::ServerSettings server_settings(const Config& config) {
  http::ServerSettings settings;
  settings.address = config.address;
  settings.port = config.port;
  settings.workers = config.connections_max + 4;  // one a connection, a few to refuse the rest
  settings.hosts.push_back(http::host_of_address(config.address));
  for (const std::string& name : config.host_names) settings.hosts.push_back(name);
  settings.guard.connections_max = static_cast<std::size_t>(config.connections_max);
  settings.guard.connections_per_peer_max =
      static_cast<std::size_t>(config.connections_per_peer_max);
  return settings;
}

std::string origin_of(const Config& config) {
  return "http://" + http::host_of_address(config.address) + ":" + std::to_string(config.port);
}

/// While nobody is entered: the code that makes the first manager.
base::Status<> offer_setup(access::Access& access) {
  const auto code = access.setup_code();
  if (!code) return code.error();
  if (*code) show_setup_code(**code);
  return base::Done{};
}

}  // namespace

Exit serve(const Options& options) {
  const sigset_t signals = hold_back_signals();
  const auto opened =
      OpenWorkshop::open(options, OpenWorkshop::IfMissing::kMake, std::make_unique<SystemClock>());
  if (!opened) return opened.error();
  OpenWorkshop& workshop = **opened;
  const auto adopted = workshop::adopt_packs(workshop.ports());
  if (!adopted) return fail(adopted.error());
  http::Application application;
  application.routes = http::api_routes({workshop.ports(),
                                         workshop.access(),
                                         BENCHWARDEN_VERSION,
                                         {origin_of(options.config), {}, {}}});
  application.files = app_files(workshop.files());
  application.authenticate = http::authenticator(workshop.access());
  application.fault_log = [](const std::string& line) { std::cerr << line + "\n" << std::flush; };
  auto server = http::Server::start(server_settings(options.config), std::move(application));
  if (!server) return fail(server.error());
  std::cout << "Benchwarden " << BENCHWARDEN_VERSION << " on http://"
            << http::host_of_address(options.config.address) << ":" << (*server)->port()
            << std::endl;
  // After the port is ours: a code nobody could use would only confuse.
  const auto offered = offer_setup(workshop.access());
  if (!offered) return fail(offered.error());

  wait_for_end(signals, workshop.ports().live);
  // Nobody who waits for a place is to hold up the end; whoever has one finishes.
  workshop.access().turn_away();
  workshop.ports().costly.close();
  (*server)->stop();
  const auto kept = workshop.ports().live.keep();
  if (!kept) return fail(kept.error());
  std::cout << "stopped" << std::endl;
  return Exit::kDone;
}

}  // namespace benchwarden::daemon
