#include <algorithm>
#include <array>
#include <chrono>
#include <memory>
#include <string_view>
#include <tuple>
#include <utility>

#include "http/access_telling.h"
#include "http/api.h"
#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "http/kept_answers.h"
#include "workshop/media_type.h"

namespace benchwarden::http {
namespace {

using access::Role;
using ApiHandler = Response (*)(const ApiPorts&, const Request&, const Context&);

constexpr Who kOpen = Who::open();
constexpr Who kAny = Who::any();
constexpr Who kWriters = Who::only({Role::kTechnician, Role::kManager});
constexpr Who kReaders = Who::only({Role::kManager, Role::kInspector});
constexpr Who kAnyRead = kAny.or_scripts();
constexpr Who kPapers = kReaders.or_scripts();
constexpr Who kRecorders = kWriters.or_recording_scripts();
constexpr Effect kReads = Effect::kReads;
constexpr Effect kWrites = Effect::kWrites;
constexpr Who kManager = Who::only({Role::kManager});
constexpr Who kWeighty = kManager.confirmed();

/// Puts the ports into the handlers of the table. Nothing is told or judged by tallies that lack
/// entries of the book; `always` is for what does not ask them.
class Bind {
 public:
  explicit Bind(ApiPorts ports) : ports_(std::move(ports)) {}
  Handler operator()(ApiHandler handler) const { return caught_up(always(handler)); }
  [[nodiscard]] Handler always(ApiHandler handler) const {
    return [ports = ports_, handler](const Request& request, const Context& context) {
      return handler(ports, request, context);
    };
  }
  /// For what everybody gets alike and asks for often; not of an earlier time.
  [[nodiscard]] Handler kept(ApiHandler handler) const {
    return caught_up(
        [ports = ports_, handler, kept = kept_](const Request& request, const Context& context) {
          if (!request.query.items().empty()) return handler(ports, request, context);
          // The view ends with the line: recording waits for whoever has one.
          const std::uint64_t size = ports.workshop.live.view()->size();
          return kept->answer(request.path, size, std::chrono::steady_clock::now(),
                              [&] { return handler(ports, request, context); });
        });
  }
  /// For what changes who may come in: the book is told of it at once, or else by and by.
  [[nodiscard]] Handler told(ApiHandler handler) const {
    return [ports = ports_, handler](const Request& request, const Context& context) {
      Response answer = handler(ports, request, context);
      static_cast<void>(tell_access_changes(ports.access, ports.workshop));
      return answer;
    };
  }
  [[nodiscard]] Handler report(const std::string& format) const {
    return caught_up([ports = ports_, format](const Request& request, const Context& context) {
      return get_report(ports, request, context, format);
    });
  }

 private:
  [[nodiscard]] Handler caught_up(Handler handler) const {
    return [&live = ports_.workshop.live, handler = std::move(handler)](const Request& request,
                                                                        const Context& context) {
      const auto ready = live.catch_up();
      return ready ? handler(request, context) : error_answer(ready.error());
    };
  }

  ApiPorts ports_;
  std::shared_ptr<KeptAnswers> kept_ = std::make_shared<KeptAnswers>();
};

/// Two at once bound the memory; the time lets 5 MB through at 42 kB/s, which a tablet at the end
/// of the shop still has.
OwnBody file_body() {
  constexpr int kAtOnce = 2;
  return {{"application/pdf", "image/jpeg", "image/png"},
          workshop::kUploadBytesMax,
          std::chrono::seconds(120),
          std::make_shared<base::Gate>(base::GateLimits{kAtOnce, 0, {}})};
}

/// People, sessions, devices and feeds: who may come in, and as whom.
std::vector<Route> account_routes(const Bind& to) {
  // clang-format off
  return {
      {Method::kGet, "/api/v1/calendar", kManager, kReads, to.always(get_calendar_feed)},
      {Method::kPost, "/api/v1/calendar", kWeighty, kWrites, to.told(post_calendar_feed)},
      {Method::kDelete, "/api/v1/calendar", kWeighty, kWrites, to.told(delete_calendar_feed)},
      {Method::kGet, "/api/v1/calendar/{secret}.ics", kOpen, kReads, to(get_calendar)},
      {Method::kGet, "/api/v1/device", kOpen, kReads, to.always(get_device)},
      {Method::kGet, "/api/v1/devices", kReaders, kReads, to(get_devices)},
      {Method::kPost, "/api/v1/devices", kOpen, kWrites, to.told(post_device)},
      {Method::kPost, "/api/v1/devices/pairing", kWeighty, kWrites, to.always(post_pairing)},
      {Method::kDelete, "/api/v1/devices/{id}", kWeighty, kWrites, to.told(delete_device)},
      {Method::kGet, "/api/v1/people", kOpen, kReads, to.always(get_people)},
      {Method::kPost, "/api/v1/people", kWeighty, kWrites, to.told(post_person)},
      {Method::kGet, "/api/v1/people/accounts", kManager, kReads, to.always(get_accounts)},
      {Method::kPut, "/api/v1/people/{id}/active", kWeighty, kWrites, to.told(put_active)},
      {Method::kPut, "/api/v1/people/{id}/inspection", kWeighty, kWrites, to.told(put_inspection)},
      {Method::kDelete, "/api/v1/people/{id}/inspection", kWeighty, kWrites,
       to.told(delete_inspection)},
      {Method::kPut, "/api/v1/people/{id}/pin", kWeighty, kWrites, to.told(put_pin)},
      {Method::kGet, "/api/v1/session", kAny, kReads, to.always(get_session)},
      {Method::kPost, "/api/v1/session", kOpen, kWrites, to.always(post_session)},
      {Method::kDelete, "/api/v1/session", kAny, kWrites, to.always(delete_session)},
      {Method::kPost, "/api/v1/session/confirmation", kAny, kWrites, to.always(post_confirmation)},
      {Method::kPut, "/api/v1/session/passphrase", kAny.confirmed(), kWrites,
       to.told(put_passphrase)},
      {Method::kGet, "/api/v1/sessions", kAny, kReads, to.always(get_sessions)},
      {Method::kDelete, "/api/v1/sessions/{id}", kAny, kWrites, to.told(delete_listed_session)},
      {Method::kGet, "/api/v1/tokens", kManager, kReads, to.always(get_tokens)},
      {Method::kPost, "/api/v1/tokens", kWeighty, kWrites, to.told(post_token)},
      {Method::kDelete, "/api/v1/tokens/{id}", kWeighty, kWrites, to.told(delete_token)},
      {Method::kPost, "/api/v1/setup", kOpen, kWrites, to.told(post_setup)},
  };
  // clang-format on
}

const std::vector<std::string>& past_query() {
  static const std::vector<std::string> names{"as_of", "known_at"};
  return names;
}

/// The book, what follows from it, and the forms around it.
std::vector<Route> book_routes(const Bind& to) {
  // clang-format off
  return {
      {Method::kPost, "/api/v1/attachments", kRecorders, kWrites,
       to.always(post_attachment), {}, file_body()},
      {Method::kGet, "/api/v1/attachments/{digest}", kAnyRead, kReads, to.always(get_attachment)},
      {Method::kGet, "/api/v1/backups", kPapers, kReads, to(get_backups)},
      {Method::kGet, "/api/v1/book/checkpoint", kAnyRead, kReads, to(get_checkpoint)},
      {Method::kGet, "/api/v1/book/checkpoints", kAnyRead, kReads, to(get_checkpoints),
       {"after", "limit"}},
      {Method::kGet, "/api/v1/book/consistency", kAnyRead, kReads, to(get_consistency),
       {"from", "to"}},
      {Method::kGet, "/api/v1/calculations", kAnyRead, kReads, to(get_calculations)},
      {Method::kPost, "/api/v1/calculations/{name}", kAnyRead, kReads, to(post_calculation)},
      {Method::kGet, "/api/v1/collections", kAnyRead, kReads, to(get_collections)},
      {Method::kGet, "/api/v1/collections/proposal", kAnyRead, kReads, to(get_proposal)},
      {Method::kGet, "/api/v1/diagnostics", kManager, kReads, to.always(get_diagnostics)},
      {Method::kGet, "/api/v1/due", kAnyRead, kReads, to(get_due)},
      {Method::kGet, "/api/v1/emergency", kOpen, kReads, to.always(get_emergency)},
      {Method::kGet, "/api/v1/entries", kAnyRead, kReads, to(get_entries),
       {"kind", "subject", "person", "from", "to", "limit", "cursor"}},
      {Method::kPost, "/api/v1/entries", kRecorders.or_device(), kWrites, to(post_entries)},
      {Method::kGet, "/api/v1/entries/unconfirmed", kAnyRead, kReads, to(get_unconfirmed_entries)},
      {Method::kGet, "/api/v1/entries/{id}", kAnyRead, kReads, to(get_entry)},
      {Method::kGet, "/api/v1/entries/{id}/findings", kAnyRead, kReads, to(get_entry_findings)},
      {Method::kGet, "/api/v1/entries/{id}/proof", kAnyRead, kReads, to(get_entry_proof), {"size"}},
      {Method::kGet, "/api/v1/entries/{id}/tlog-proof", kAnyRead, kReads, to(get_proof_file)},
      {Method::kGet, "/api/v1/findings", kAnyRead, kReads, to(get_findings), past_query()},
      {Method::kGet, "/api/v1/forms", kAnyRead, kReads, to(get_forms)},
      {Method::kGet, "/api/v1/forms/{kind}", kAnyRead, kReads, to(get_form)},
      {Method::kGet, "/api/v1/health", kOpen, kReads, to(get_health)},
      {Method::kGet, "/api/v1/history/{class}/{id}", kAnyRead, kReads, to(get_history)},
      {Method::kGet, "/api/v1/levels", kAnyRead, kReads, to.kept(get_levels), past_query()},
      {Method::kGet, "/api/v1/months", kAnyRead, kReads, to.kept(get_months)},
      {Method::kGet, "/api/v1/months/{month}", kAnyRead, kReads, to.kept(get_month)},
      {Method::kGet, "/api/v1/openapi.json", kOpen, kReads, to.always(get_openapi)},
      {Method::kPost, "/api/v1/register/import", kWeighty, kWrites, to(post_register_import)},
      {Method::kGet, "/api/v1/register/{class}", kAnyRead, kReads, to(get_things), past_query()},
      {Method::kGet, "/api/v1/register/{class}/{id}", kAnyRead, kReads, to(get_thing),
       past_query()},
  };
  // clang-format on
}

/// Reports, and the rules that judge in them.
std::vector<Route> report_routes(const Bind& to) {
  const std::vector<std::string> report_query{"month", "year", "subject", "from", "to", "paper"};
  // clang-format off
  return {
      {Method::kGet, "/api/v1/reports/issued/{id}.json", kPapers, kReads, to(get_issued_figures)},
      {Method::kGet, "/api/v1/reports/issued/{id}.pdf", kPapers, kReads, to(get_issued_report)},
      {Method::kPost, "/api/v1/reports/{name}", kWeighty, kWrites, to(post_report)},
      {Method::kGet, "/api/v1/reports/{name}.csv", kPapers, kReads, to.report("csv"),
       report_query},
      {Method::kGet, "/api/v1/reports/{name}.html", kPapers, kReads, to.report("html"),
       report_query},
      {Method::kGet, "/api/v1/reports/{name}.json", kPapers, kReads, to.report("json"),
       report_query},
      {Method::kGet, "/api/v1/reports/{name}.pdf", kPapers, kReads, to.report("pdf"),
       report_query},
      {Method::kGet, "/api/v1/reports/{name}.svg", kPapers, kReads, to.report("svg"),
       report_query},
      {Method::kGet, "/api/v1/retention", kAnyRead, kReads, to(get_retention), past_query()},
      {Method::kGet, "/api/v1/rules", kAnyRead, kReads, to(get_rules)},
      {Method::kPost, "/api/v1/rules/check", kManager, kReads, to(post_rule_check)},
      {Method::kPut, "/api/v1/rules/local", kWeighty, kWrites, to(put_local_pack)},
      {Method::kGet, "/api/v1/rules/packs", kAnyRead, kReads, to(get_rule_packs)},
  };
  // clang-format on
}

/// What each route shows to an inspector whose access is for a part of the book; one that is not
/// named here is for access to everything.
constexpr std::array<std::pair<std::string_view, Shows>, 34> kShown{{
    {"/api/v1/attachments/{digest}", Shows::kKind},
    {"/api/v1/book/checkpoint", Shows::kNothing},
    {"/api/v1/book/checkpoints", Shows::kNothing},
    {"/api/v1/book/consistency", Shows::kNothing},
    {"/api/v1/calculations", Shows::kNothing},
    {"/api/v1/calculations/{name}", Shows::kNothing},
    {"/api/v1/collections", Shows::kWaste},
    {"/api/v1/collections/proposal", Shows::kWaste},
    {"/api/v1/entries", Shows::kKind},
    {"/api/v1/entries/{id}", Shows::kKind},
    {"/api/v1/entries/{id}/proof", Shows::kKind},
    {"/api/v1/entries/{id}/tlog-proof", Shows::kKind},
    {"/api/v1/forms", Shows::kNothing},
    {"/api/v1/forms/{kind}", Shows::kNothing},
    {"/api/v1/history/{class}/{id}", Shows::kClass},
    {"/api/v1/levels", Shows::kWaste},
    {"/api/v1/months", Shows::kWaste},
    {"/api/v1/months/{month}", Shows::kWaste},
    {"/api/v1/register/{class}", Shows::kClass},
    {"/api/v1/register/{class}/{id}", Shows::kClass},
    {"/api/v1/reports/issued/{id}.json", Shows::kKind},
    {"/api/v1/reports/issued/{id}.pdf", Shows::kKind},
    {"/api/v1/reports/{name}.csv", Shows::kReport},
    {"/api/v1/reports/{name}.html", Shows::kReport},
    {"/api/v1/reports/{name}.json", Shows::kReport},
    {"/api/v1/reports/{name}.pdf", Shows::kReport},
    {"/api/v1/reports/{name}.svg", Shows::kReport},
    {"/api/v1/rules", Shows::kNothing},
    {"/api/v1/rules/packs", Shows::kNothing},
    {"/api/v1/session", Shows::kNothing},
    {"/api/v1/session/confirmation", Shows::kNothing},
    {"/api/v1/session/passphrase", Shows::kNothing},
    {"/api/v1/sessions", Shows::kNothing},
    {"/api/v1/sessions/{id}", Shows::kNothing},
}};

void say_what_is_shown(std::vector<Route>& routes) {
  for (Route& route : routes) {
    const auto* const found = std::find_if(
        kShown.begin(), kShown.end(), [&](const auto& row) { return row.first == route.pattern; });
    if (found != kShown.end()) route.shows = found->second;
  }
}

}  // namespace

std::vector<Route> api_routes(const ApiPorts& ports) {
  const Bind to(ports);
  std::vector<Route> routes = book_routes(to);
  for (Route& route : report_routes(to)) routes.push_back(std::move(route));
  for (Route& route : account_routes(to)) routes.push_back(std::move(route));
  say_what_is_shown(routes);
  std::sort(routes.begin(), routes.end(), [](const Route& a, const Route& b) {
    return std::tie(a.pattern, a.method) < std::tie(b.pattern, b.method);
  });
  return routes;
}

}  // namespace benchwarden::http
