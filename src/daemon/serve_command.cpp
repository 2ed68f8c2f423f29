#include <unistd.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <chrono>
#include <csignal>
#include <exception>
#include <iostream>
#include <string>
#include <string_view>
#include <utility>

#include "daemon/access_teller.h"
#include "daemon/backup_keeper.h"
#include "daemon/daily_seal.h"
#include "daemon/diagnostics.h"
#include "daemon/front.h"
#include "daemon/month_files.h"
#include "daemon/open_workshop.h"
#include "daemon/own_process.h"
#include "daemon/snapshot_keeper.h"
#include "daemon/system_clock.h"
#include "http/api.h"
#include "workshop/device_views.h"
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

/// What is looked after every half minute, and the snapshots more often.
struct Chores {
  Front& front;
  MonthFiles& month_files;
  DailySeal& daily_seal;
  BackupKeeper& backups;
  AccessTeller& teller;
  SnapshotKeeper& snapshots;
  Log& log;

  void look_after() const {
    attempt(front);
    attempt(month_files);
    attempt(daily_seal);
    attempt(backups);
    attempt(teller);
  }
  /// One that finds no memory, or no thread, must not end the daemon; it is tried again.
  template <typename Chore>
  void attempt(Chore& chore) const {
    try {
      chore.look_after();
    } catch (const std::exception& fault) {
      log.write_once(Severity::kError, "fault", fault.what());
    }
  }
};

/// Until a signal says so.
void wait_for_end(const sigset_t& signals, const Chores& chores) {
  constexpr timespec kLookEvery{5, 0};
  constexpr int kLooksPerChores = 6;
  for (int looks = 1; sigtimedwait(&signals, nullptr, &kLookEvery) < 0; ++looks) {
    chores.attempt(chores.snapshots);
    if (looks % kLooksPerChores != 0) continue;
    chores.look_after();
    give_back_memory();
  }
}

/// However the daemon ends: what requests call is gone only after the server.
class StopsFront {
 public:
  explicit StopsFront(Front& front) : front_(front) {}
  StopsFront(const StopsFront&) = delete;
  StopsFront& operator=(const StopsFront&) = delete;
  ~StopsFront() { front_.stop(); }

 private:
  Front& front_;
};

constexpr std::array<std::pair<std::string_view, const char*>, 5> kAppTypes{{
    {".html", "text/html; charset=utf-8"},
    {".js", "text/javascript; charset=utf-8"},
    {".css", "text/css; charset=utf-8"},
    {".svg", "image/svg+xml"},
    {".webmanifest", "application/manifest+json"},
}};

const char* app_type_of(std::string_view path) {
  const auto found = std::find_if(kAppTypes.begin(), kAppTypes.end(),
                                  [&](const auto& type) { return path.ends_with(type.first); });
  assert(found != kAppTypes.end());  // a new kind of file in the app needs its type here
  return found->second;
}

/// Every file of the app by its name, the page itself as "/", each with its packed form. All are
/// asked about each time, so that a browser never joins files of two builds.
http::StaticFiles app_files(const DataFileSet& files) {
  constexpr std::string_view kFolder = "app";
  constexpr std::string_view kPacked = ".gz";
  http::StaticFiles served;
  for (const base::DataFile& file : files.all()) {
    if (!file.path.starts_with("app/")) continue;
    const bool is_packed = file.path.ends_with(kPacked);
    std::string path(file.path.substr(kFolder.size()));
    if (is_packed) path.resize(path.size() - kPacked.size());
    http::StaticFile& one = served[path == "/index.html" ? "/" : path];
    (is_packed ? one.gzip : one.bytes) = file.bytes;
    if (!is_packed) one.content_type = app_type_of(path);
  }
  return served;
}

/// Longer than whoever waits for it takes it for working.
constexpr std::chrono::milliseconds kSlowRequest{5000};

base::JsonObject request_json(const http::AccessLine& line) {
  return {{"method", line.method},
          {"path", line.pattern},
          {"status", line.status},
          {"bytes", std::uint64_t{line.body_bytes}},
          {"ms", std::int64_t{line.duration.count() / 1000}}};
}

http::Application application_of(const http::ApiPorts& ports, const DataFileSet& files,
                                 AccessTeller& teller, Log& log, RequestCounts& requests) {
  http::Application application;
  application.routes = http::api_routes(ports);
  application.files = app_files(files);
  application.authenticate = http::authenticator(ports.access);
  application.recognise_device = http::device_recogniser(ports.access);
  application.fault_log = [&log](const std::string& line) {
    log.write(Severity::kError, "fault", line);
  };
  application.access_log = [&log, &requests,
                            &clock = ports.workshop.clock](const http::AccessLine& line) {
    requests.add(line, clock.now());
    if (line.duration < kSlowRequest) return;
    log.write(Severity::kNotice, "slow-request", "whoever asked waited", request_json(line));
  };
  application.note_refused = teller.noting();
  application.rates.emplace();
  application.rates->spares_this_machine = !ports.behind_proxy;
  return application;
}

/// While nobody is entered: the code that makes the first manager.
base::Status<> offer_setup(access::Access& access) {
  const auto code = access.setup_code();
  if (!code) return code.error();
  if (*code) show_setup_code(**code);
  return base::Done{};
}

/// A fault in it would then be one of the whole machine.
void tell_of_root() {
  if (::geteuid() != 0) return;
  std::cout << "runs as root; give it a user of its own, as .package/benchwarden.service does"
            << std::endl;
}

/// Paired tablets had been set up with an authority that is gone.
base::Status<> tell_of_lost_authority(const access::Access& access, const Front& front) {
  if (!front.has_new_authority()) return base::Done{};
  const auto devices = access.devices();
  if (!devices) return devices.error();
  const auto is_paired = [](const access::ListedDevice& one) { return !one.ended_at; };
  if (std::any_of(devices->begin(), devices->end(), is_paired)) front.tell_of_new_authority();
  return base::Done{};
}

base::Status<Exit> check_backup_folder(const Config& config) {
  if (config.backup_folder.empty()) return base::Done{};
  const auto outside = must_lie_outside(config.data_folder, config.backup_folder, "backup_folder");
  if (outside) return base::Done{};
  fail(outside.error());
  return Exit::kBadData;
}

/// What has to be so before anybody is let in.
base::Status<Exit> make_ready(OpenWorkshop& workshop, const Options& options) {
  const auto keyed = workshop.take_signing_key(options);
  if (!keyed) return keyed.error();
  const auto adopted = workshop::adopt_packs(workshop.ports());
  if (!adopted) return fail(adopted.error());
  // Should access.db have been lost: no tablet gets the id of one whose entries the book has.
  const auto left_out =
      workshop.access().leave_out_devices(workshop::devices_in_book(workshop.ports()));
  if (!left_out) return fail(left_out.error());
  return base::Done{};
}

}  // namespace

Exit serve(const Options& options) {
  const sigset_t signals = hold_back_signals();
  auto network = network_of(options.config);
  if (!network) {
    std::cerr << "benchwarden: " << network.error().detail << "\n";
    return Exit::kBadData;
  }
  const auto outside = check_backup_folder(options.config);
  if (!outside) return outside.error();
  const auto opened =
      OpenWorkshop::open(options, OpenWorkshop::IfMissing::kMake, std::make_unique<SystemClock>());
  if (!opened) return opened.error();
  OpenWorkshop& workshop = **opened;
  const auto ready = make_ready(workshop, options);
  if (!ready) return ready.error();
  Log log(workshop.ports().clock, std::cerr);
  const auto fronted = Front::open(options.config, *std::move(network), workshop.files(), log);
  if (!fronted) return fronted.error();
  Front& front = **fronted;
  BackupKeeper backups(options.config, workshop.ports(), log);
  AccessTeller teller(workshop.access(), workshop.ports(), log);
  RequestCounts requests;
  const Diagnostics diagnostics(options.config, workshop.ports(), front, log, requests);
  teller.look_after();
  const auto started = front.start(
      application_of({workshop.ports(), workshop.access(), BENCHWARDEN_VERSION, front.addresses(),
                      options.config.behind_proxy, [&backups] { return backups.schedule(); },
                      teller.noting(), [&diagnostics] { return diagnostics.told(); }},
                     workshop.files(), teller, log, requests));
  if (!started) return started.error();
  const StopsFront stops(front);
  const auto told = tell_of_lost_authority(workshop.access(), front);
  if (!told) return fail(told.error());
  // After the port is ours: a code nobody could use would only confuse.
  const auto offered = offer_setup(workshop.access());
  if (!offered) return fail(offered.error());
  tell_of_root();

  MonthFiles month_files(options.config.report_folder, options.config.report_paper,
                         workshop.ports(), log);
  month_files.look_after();
  DailySeal daily_seal(workshop.ports(), log);
  daily_seal.look_after();
  backups.look_after();
  give_back_memory();
  SnapshotKeeper snapshots(workshop.ports().live, log);
  wait_for_end(signals, {front, month_files, daily_seal, backups, teller, snapshots, log});
  // Nobody who waits for a place is to hold up the end; whoever has one finishes.
  workshop.access().turn_away();
  workshop.ports().costly.close();
  front.stop();
  backups.finish();
  teller.look_after();
  const auto kept = workshop.ports().live.keep();
  if (!kept) return fail(kept.error());
  std::cout << "stopped" << std::endl;
  return Exit::kDone;
}

}  // namespace benchwarden::daemon
