#include "soak/served_workshop.h"

#include <utility>

#include "access/access_fixture.h"
#include "http/api.h"

namespace benchwarden::soak {
namespace {

http::ServerSettings settings_for(std::size_t connections) {
  http::ServerSettings settings;
  settings.port = 0;
  settings.workers = static_cast<int>(connections);
  settings.guard.connections_max = connections;
  settings.guard.connections_per_peer_max = connections;
  settings.guard.sweep = std::chrono::milliseconds(20);
  return settings;
}

}  // namespace

ServedWorkshop::ServedWorkshop(std::size_t connections) {
  auto opened = access::Access::open(workshop_.folder(), workshop_.clock, access::quick_settings());
  if (!opened) ADD_FAILURE() << opened.error().detail;
  access_ = *std::move(opened);
  using access::Role;
  for (const Role role : {Role::kManager, Role::kManager, Role::kTechnician, Role::kInspector}) {
    const std::string name = "Person " + std::to_string(access_->people()->size() + 1);
    const auto added = access_->add_person(name, role, kPin, "machine");
    if (!added) ADD_FAILURE() << added.error().detail;
  }
  constexpr std::int64_t kDayMs = 86'400'000;
  const base::Instant now = workshop_.clock.now();
  const access::Inspection inspection{
      "", access::InspectionScope::kEverything, now, {now.ms + 10 * kDayMs}};
  EXPECT_TRUE(access_->give_inspection("p4", inspection, "machine").ok());
  auto started = http::Server::start(settings_for(connections), application());
  if (!started) ADD_FAILURE() << started.error().detail;
  server_ = *std::move(started);
}

http::Application ServedWorkshop::application() {
  http::Application application;
  const http::NoteRefused no_note = [](const auto&, const auto&, const auto&) {};
  const http::ApiPorts ports{workshop_.ports(),
                             *access_,
                             "0",
                             {"http://127.0.0.1", {}, {}},
                             false,
                             [] { return workshop::BackupSchedule{}; },
                             no_note,
                             [] { return base::Json(base::JsonObject{}); }};
  application.note_refused = no_note;
  application.routes = http::api_routes(ports);
  application.authenticate = http::authenticator(*access_);
  application.recognise_device = http::device_recogniser(*access_);
  application.fault_log = [this](const std::string& line) {
    const std::lock_guard lock(mutex_);
    faults_.push_back(line);
  };
  return application;
}

std::string ServedWorkshop::sign_in(const std::string& person) const {
  const access::Secret secret{access::Secret::Kind::kPin, kPin};
  const auto session = access_->sign_in(person, secret, access::from("127.0.0.1"));
  return session ? session->token : "";
}

std::string ServedWorkshop::request(const std::string& method, const std::string& path,
                                    const std::string& token, const std::string& body,
                                    const std::string& type) const {
  std::string head = method + " " + path + " HTTP/1.1\r\nHost: " + host() + "\r\n";
  if (!token.empty()) head += "Authorization: Bearer " + token + "\r\n";
  if (!body.empty()) {
    head += "Content-Type: " + type + "\r\nContent-Length: " + std::to_string(body.size()) + "\r\n";
  }
  return head + "\r\n" + body;
}

std::vector<std::string> ServedWorkshop::faults() const {
  const std::lock_guard lock(mutex_);
  return faults_;
}

}  // namespace benchwarden::soak
