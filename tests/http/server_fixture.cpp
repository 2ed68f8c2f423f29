#include "http/server_fixture.h"

#include <Poco/Exception.h>

#include <stdexcept>
#include <thread>

namespace benchwarden::http {
namespace {

Response text(const std::string& body) {
  Response response;
  response.body = body;
  return response;
}

Response throw_something(const Request&, const Context& context) {
  const std::string& what = context.part("what");
  if (what == "std") {
    throw std::runtime_error("inner detail");
  }
  if (what == "poco") {
    throw Poco::IOException("inner detail");
  }
  throw 42;
}

Response slow(const Request&, const Context&) {
  std::this_thread::sleep_for(std::chrono::milliseconds(300));
  return text("late");
}

Response large(const Request&, const Context&) {
  Response response;
  response.body = std::make_shared<const std::string>(std::size_t{8} << 20U, 'x');
  return response;
}

std::optional<SignedIn> sign_in(const Request& request) {
  SignedIn who;
  who.token = request.credential->token;
  if (who.token == "manager-token") {
    who.session.person = "p1";
    who.session.role = access::Role::kManager;
    return who;
  }
  if (who.token == "inspector-token") {
    who.session.person = "p2";
    who.session.role = access::Role::kInspector;
    return who;
  }
  return std::nullopt;
}

}  // namespace

ServerSettings ServerFixture::short_settings() {
  using std::chrono::milliseconds;
  ServerSettings settings;
  settings.port = 0;
  settings.workers = 24;
  settings.guard.connections_max = 24;
  settings.guard.connections_per_peer_max = 24;
  settings.guard.header = milliseconds(400);
  settings.guard.idle = milliseconds(400);
  settings.guard.body = milliseconds(500);
  settings.guard.sending = milliseconds(600);
  settings.guard.draining = milliseconds(300);
  settings.guard.sweep = milliseconds(20);
  return settings;
}

void ServerFixture::start(const ServerSettings& settings) {
  server_.reset();
  auto started = Server::start(settings, application());
  ASSERT_TRUE(started.ok()) << started.error().detail;
  server_ = std::move(started).value();
}

void ServerFixture::TearDown() { server_.reset(); }

std::vector<Route> ServerFixture::routes() {
  return {
      {Method::kPost, "/api/v1/echo", Who::open(), Effect::kWrites,
       [this](const Request& request, const Context&) {
         ++echoes_;
         return text(request.body);
       }},
      {Method::kGet, "/api/v1/hidden", Who::open(), Effect::kReads,
       [this](const Request&, const Context&) {
         ++hidden_reached_;
         return text("hidden");
       }},
      {Method::kGet, "/api/v1/large", Who::open(), Effect::kReads, large},
      {Method::kPost, "/api/v1/manage", Who::only({access::Role::kManager}), Effect::kWrites,
       [](const Request&, const Context& context) { return text(context.who().session.person); }},
      {Method::kGet,
       "/api/v1/secret/{word}",
       Who::any(),
       Effect::kReads,
       [](const Request&, const Context& context) { return text(context.part("word")); },
       {"word"}},
      {Method::kGet, "/api/v1/slow", Who::open(), Effect::kReads, slow},
      {Method::kGet, "/api/v1/throws/{what}", Who::open(), Effect::kReads, throw_something},
      {Method::kPost,
       "/api/v1/upload",
       Who::only({access::Role::kManager}),
       Effect::kWrites,
       [](const Request& request, const Context&) {
         return text(std::to_string(request.body.size()));
       },
       {},
       OwnBody{{"image/png"},
               200'000,
               std::chrono::milliseconds(800),
               std::make_shared<base::Gate>(base::GateLimits{1, 0, {}})}},
  };
}

Application ServerFixture::application() {
  Application application;
  application.routes = routes();
  application.files = {
      {"/", {"<!doctype html>", "text/html; charset=utf-8", Caching::kRevalidate, "packed page"}}};
  application.authenticate = sign_in;
  application.access_log = [this](const AccessLine& line) {
    const std::lock_guard lock(mutex_);
    lines_.push_back(line);
  };
  application.fault_log = [this](const std::string& line) {
    const std::lock_guard lock(mutex_);
    faults_.push_back(line);
  };
  return application;
}

std::string ServerFixture::head(const std::string& line, const std::string& fields) const {
  return line + " HTTP/1.1\r\nHost: " + host() + "\r\n" + fields + "\r\n";
}

std::string ServerFixture::get(const std::string& path) const { return head("GET " + path); }

std::string ServerFixture::post(const std::string& path, const std::string& body) const {
  return head("POST " + path, "Content-Type: application/json\r\nContent-Length: " +
                                  std::to_string(body.size()) + "\r\n") +
         body;
}

std::optional<RawAnswer> ServerFixture::ask(const std::string& bytes) const {
  RawClient client(port());
  EXPECT_TRUE(client.send(bytes));
  return client.read_answer();
}

std::optional<RawAnswer> ServerFixture::ask_once(const std::string& bytes) const {
  RawClient client(port());
  EXPECT_TRUE(client.send(bytes));
  std::optional<RawAnswer> answer = client.read_answer();
  EXPECT_EQ(client.read_to_end(), "") << "a second answer, or the connection stays open";
  return answer;
}

std::vector<std::string> ServerFixture::faults() const {
  const std::lock_guard lock(mutex_);
  return faults_;
}

std::vector<AccessLine> ServerFixture::access_lines() const {
  const std::lock_guard lock(mutex_);
  return lines_;
}

}  // namespace benchwarden::http
