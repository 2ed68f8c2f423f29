#include "http/dispatcher.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "base/json.h"

namespace benchwarden::http {
namespace {

Request request(const std::string& method, const std::string& path) {
  Request made;
  made.method = method;
  made.path = path;
  return made;
}

Answer ask(const Dispatcher& dispatcher, const Request& asked) {
  const auto target = dispatcher.find(asked.method, asked.path);
  return target ? dispatcher.answer(*target, asked) : Answer{target.error(), ""};
}

Application with(const Handler& handler, Who who = Who::open()) {
  Application application;
  application.routes = {{Method::kGet, "/a", who, Effect::kReads, handler}};
  return application;
}

Response empty(const Request&, const Context&) { return {}; }

TEST(Dispatcher, DoesNotAskWhoIsThereOnAnOpenRoute) {
  Application application = with(empty);
  application.authenticate = [](const Request&) -> std::optional<SignedIn> {
    throw std::logic_error("asked");
  };
  Request asked = request("GET", "/a");
  asked.credential = Credential{"t", Credential::From::kBearer};
  EXPECT_EQ(ask(Dispatcher(application), asked).response.status, 200);
}

TEST(Dispatcher, DoesNotAskWithoutCredential) {
  int calls = 0;
  Application application = with(empty, Who::any());
  application.authenticate = [&](const Request&) {
    ++calls;
    return std::optional<SignedIn>(SignedIn{});
  };
  const Dispatcher dispatcher(application);
  EXPECT_EQ(ask(dispatcher, request("GET", "/a")).response.status, 401);
  EXPECT_EQ(calls, 0);
  Request asked = request("GET", "/a");
  asked.credential = Credential{"t", Credential::From::kBearer};
  EXPECT_EQ(ask(dispatcher, asked).response.status, 200);
  EXPECT_EQ(calls, 1);
}

TEST(Dispatcher, RefusesNamesOfTheQueryThatTheRouteDoesNotRead) {
  Application application = with(empty);
  application.routes[0].query = {"kind", "limit"};
  const Dispatcher dispatcher(application);
  Request asked = request("GET", "/a");
  asked.query = Query({{"limit", "5"}, {"kind", "x"}});
  EXPECT_EQ(ask(dispatcher, asked).response.status, 200);
  asked.query = Query({{"limit", "5"}, {"colour", "x"}, {"a/b", ""}});
  const Response refused = ask(dispatcher, asked).response;
  EXPECT_EQ(refused.status, 422);
  const auto json = base::parse_json(body_bytes(refused));
  ASSERT_TRUE(json.ok());
  const base::JsonArray& errors = *json->find("errors")->array();
  ASSERT_EQ(errors.size(), 2U);
  EXPECT_EQ(*errors[0].find("pointer"), base::Json("/query/colour"));
  EXPECT_EQ(*errors[0].find("detail"),
            base::Json("'colour' is not known here; accepted: kind, limit"));
  EXPECT_EQ(*errors[1].find("pointer"), base::Json("/query/a~1b"));
}

TEST(Dispatcher, NeverCallsAHandlerForAnotherRole) {
  int calls = 0;
  Application application = with(
      [&](const Request&, const Context&) {
        ++calls;
        return Response();
      },
      Who::only({access::Role::kManager}));
  application.authenticate = [](const Request&) {
    SignedIn who;
    who.session.person = "p2";
    who.session.role = access::Role::kInspector;
    return std::optional<SignedIn>(who);
  };
  Request asked = request("GET", "/a");
  asked.credential = Credential{"t", Credential::From::kBearer};
  const Answer answer = ask(Dispatcher(application), asked);
  EXPECT_EQ(answer.response.status, 403);
  EXPECT_EQ(answer.person, "p2");
  EXPECT_EQ(calls, 0);
}

TEST(Dispatcher, CallsAWeightyActOnlyForWhoShowedThePinLately) {
  bool is_confirmed = false;
  Application application = with(empty, Who::only({access::Role::kManager}).confirmed());
  application.authenticate = [&](const Request&) {
    SignedIn who;
    who.session.role = access::Role::kManager;
    who.session.is_confirmed = is_confirmed;
    return std::optional<SignedIn>(who);
  };
  const Dispatcher dispatcher(application);
  Request asked = request("GET", "/a");
  asked.credential = Credential{"t", Credential::From::kBearer};
  const Response refused = ask(dispatcher, asked).response;
  EXPECT_EQ(refused.status, 403);
  EXPECT_NE(body_bytes(refused).find("/problems/confirmation-needed"), std::string_view::npos);
  is_confirmed = true;
  EXPECT_EQ(ask(dispatcher, asked).response.status, 200);
}

TEST(Dispatcher, ShowsInspectorsWhatTheirAccessIsForAndLetsThemChangeNothing) {
  access::Session session;
  session.role = access::Role::kInspector;
  Application application = with(empty, Who::any());
  application.authenticate = [&](const Request&) {
    return std::optional<SignedIn>(SignedIn{session, "t"});
  };
  const auto status = [&](Shows shows, Effect effect) {
    application.routes[0].shows = shows;
    application.routes[0].effect = effect;
    application.routes[0].method = effect == Effect::kReads ? Method::kGet : Method::kPost;
    Request asked = request(effect == Effect::kReads ? "GET" : "POST", "/a");
    asked.credential = Credential{"t", Credential::From::kBearer};
    return ask(Dispatcher(application), asked).response.status;
  };
  EXPECT_EQ(status(Shows::kWhole, Effect::kReads), 403);  // no access is given
  session.inspection = access::Inspection{};
  EXPECT_EQ(status(Shows::kWhole, Effect::kReads), 200);
  EXPECT_EQ(status(Shows::kWhole, Effect::kWrites), 403);
  EXPECT_EQ(status(Shows::kNothing, Effect::kWrites), 200);
  session.inspection->scope = access::InspectionScope::kWaste;
  EXPECT_EQ(status(Shows::kWhole, Effect::kReads), 403);
  EXPECT_EQ(status(Shows::kWaste, Effect::kReads), 200);
}

/// A server that knows the device "hush" as d1, and the token of an inspector.
Application knowing(Who who) {
  Application application = with(
      [](const Request&, const Context& context) {
        Response answer;
        const Caller& caller = context.caller();
        answer.body = (caller.who ? caller.who->session.person : "nobody") + std::string(" on ") +
                      (caller.device ? caller.device->id : "none");
        return answer;
      },
      who);
  application.recognise_device = [](const Request& request) -> std::optional<access::Device> {
    if (request.device_secret != "hush") return std::nullopt;
    return access::Device{"d1", "Tablet"};
  };
  application.authenticate = [](const Request&) {
    SignedIn who_is;
    who_is.session.person = "p2";
    who_is.session.role = access::Role::kInspector;
    who_is.session.inspection = access::Inspection{};
    return std::optional<SignedIn>(who_is);
  };
  return application;
}

std::string told(Who who, const std::string& secret, bool signed_in) {
  Request asked = request("GET", "/a");
  if (!secret.empty()) asked.device_secret = secret;
  if (signed_in) asked.credential = Credential{"t", Credential::From::kCookie};
  const Response answer = ask(Dispatcher(knowing(who)), asked).response;
  return answer.status == 200 ? std::string(body_bytes(answer)) : std::to_string(answer.status);
}

TEST(Dispatcher, LetsAPairedDeviceInWhereTheRouteDoes) {
  constexpr Who kWriters = Who::only({access::Role::kTechnician});
  EXPECT_EQ(told(kWriters.or_device(), "hush", false), "nobody on d1");
  EXPECT_EQ(told(kWriters.or_device(), "hush", true), "p2 on d1");
  EXPECT_EQ(told(kWriters.or_device(), "wrong", false), "401");
  EXPECT_EQ(told(kWriters.or_device(), "wrong", true), "403");
  EXPECT_EQ(told(kWriters.or_device(), "", false), "401");
  EXPECT_EQ(told(kWriters, "hush", false), "401");
  EXPECT_EQ(told(kWriters, "hush", true), "403");
}

TEST(Dispatcher, TellsTheHandlerOfEveryRouteOfTheDevice) {
  EXPECT_EQ(told(Who::open(), "hush", true), "nobody on d1");
  EXPECT_EQ(told(Who::any(), "hush", true), "p2 on d1");
  EXPECT_EQ(told(Who::any(), "", true), "p2 on none");
}

TEST(Dispatcher, AFailingSignInIsAFaultOfOurs) {
  std::vector<std::string> faults;
  Application application = with(empty, Who::any());
  application.authenticate = [](const Request&) -> std::optional<SignedIn> {
    throw std::runtime_error("disk");
  };
  application.fault_log = [&](const std::string& line) { faults.push_back(line); };
  Request asked = request("GET", "/a");
  asked.credential = Credential{"t", Credential::From::kBearer};
  EXPECT_EQ(ask(Dispatcher(application), asked).response.status, 500);
  EXPECT_EQ(faults, (std::vector<std::string>{"/a: disk"}));
}

TEST(Dispatcher, NamesAFaultByThePatternSoThatNoSecretOfAPathIsLogged) {
  std::vector<std::string> faults;
  Application application = with([](const Request&, const Context& context) -> Response {
    EXPECT_EQ(context.part("secret"), "hush");
    throw std::runtime_error("disk");
  });
  application.routes[0].pattern = "/calendar/{secret}.ics";
  application.fault_log = [&](const std::string& line) { faults.push_back(line); };
  EXPECT_EQ(ask(Dispatcher(application), request("GET", "/calendar/hush.ics")).response.status,
            500);
  EXPECT_EQ(faults, (std::vector<std::string>{"/calendar/{secret}.ics: disk"}));
}

TEST(Dispatcher, DoesNotSendAHeaderThatASplitWouldTurnIntoTwo) {
  const Application application = with([](const Request&, const Context&) {
    Response response;
    response.headers = {{"X-Note", "a\r\nSet-Cookie: b=1"}};
    return response;
  });
  const Answer answer = ask(Dispatcher(application), request("GET", "/a"));
  EXPECT_EQ(answer.response.status, 500);
  EXPECT_TRUE(answer.response.headers.empty());
}

TEST(Dispatcher, AHandlersOwnTagIsComparedToo) {
  const Application application = with([](const Request&, const Context&) {
    Response response;
    response.headers = {{"ETag", "\"7\""}};
    return response;
  });
  Request asked = request("GET", "/a");
  asked.if_none_match = "\"7\"";
  EXPECT_EQ(ask(Dispatcher(application), asked).response.status, 304);
}

TEST(Dispatcher, SaysWhatIsAllowedWhereAFileIs) {
  Application application;
  application.files = {{"/app.js", {"x", "text/javascript"}}};
  const Dispatcher dispatcher(application);
  EXPECT_EQ(ask(dispatcher, request("HEAD", "/app.js")).response.status, 200);
  const Answer answer = ask(dispatcher, request("POST", "/app.js"));
  EXPECT_EQ(answer.response.status, 405);
  EXPECT_EQ(answer.response.headers, (HeaderFields{{"Allow", "GET, HEAD"}}));
  EXPECT_EQ(ask(dispatcher, request("GET", "/app.j")).response.status, 404);
}

TEST(Dispatcher, ALogThatThrowsDoesNoHarm) {
  Application application =
      with([](const Request&, const Context&) -> Response { throw std::runtime_error("inner"); });
  application.fault_log = [](const std::string&) { throw std::runtime_error("log"); };
  application.access_log = [](const AccessLine&) { throw std::runtime_error("log"); };
  const Dispatcher dispatcher(application);
  EXPECT_EQ(ask(dispatcher, request("GET", "/a")).response.status, 500);
  EXPECT_NO_THROW(dispatcher.log(AccessLine()));
}

TEST(Dispatcher, CountsRequestsByTheSessionWhereThereIsOne) {
  Application application = with(empty);
  application.rates = RateSettings{0.001, 1, 10, false};
  application.authenticate = [](const Request& asked) {
    SignedIn who;
    who.session.id = asked.credential->token;
    return std::optional<SignedIn>(who);
  };
  const Dispatcher dispatcher(application);
  const auto is_refused = [&](const std::string& session) {
    Request asked = request("GET", "/a");
    asked.peer = "127.0.0.1";
    if (!session.empty()) asked.credential = Credential{session, Credential::From::kBearer};
    return dispatcher.rate_refusal(asked).has_value();
  };
  EXPECT_FALSE(is_refused(""));
  EXPECT_TRUE(is_refused(""));
  EXPECT_FALSE(is_refused("s1"));
  EXPECT_FALSE(is_refused("s2"));
  EXPECT_TRUE(is_refused("s1"));
}

TEST(Dispatcher, NotesWhoseRoleWasRefused) {
  Application application = with(empty, Who::only({access::Role::kManager}));
  application.authenticate = [](const Request&) {
    SignedIn who;
    who.session.person = "p7";
    return std::optional<SignedIn>(who);
  };
  std::vector<std::string> noted;
  application.note_refused = [&](const std::string& reason, const std::string& peer,
                                 const std::string& person) {
    noted = {reason, peer, person};
  };
  Request asked = request("GET", "/a");
  asked.peer = "10.0.0.7";
  asked.credential = Credential{"t", Credential::From::kBearer};
  EXPECT_EQ(ask(Dispatcher(application), asked).response.status, 403);
  EXPECT_EQ(noted, (std::vector<std::string>{"role", "10.0.0.7", "p7"}));
}

}  // namespace
}  // namespace benchwarden::http
