#include <charconv>
#include <string>
#include <utility>

#include "base/sha256.h"
#include "base/uuid.h"
#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "http/scoped_entries.h"
#include "workshop/finding_views.h"
#include "workshop/form_views.h"
#include "workshop/record.h"
#include "workshop/views.h"

namespace benchwarden::http {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

constexpr std::size_t kItemsMax = 200;
constexpr std::size_t kLimitDefault = 50;
constexpr std::size_t kLimitMax = 500;

Json recorded_json(const workshop::Recorded& recorded) {
  return JsonObject{{"id", base::format_uuid(recorded.id)},
                    {"seq", recorded.receipt.seq},
                    {"recorded_at", base::format_rfc3339_utc(recorded.receipt.recorded_at)},
                    {"leaf_hash", base::to_hex(recorded.receipt.leaf_hash)}};
}

Response fault_answer(const workshop::Faults& faults) {
  std::vector<ProblemError> errors;
  for (const workshop::Fault& fault : faults) {
    errors.push_back({fault.pointer, fault.code, fault.sentence});
  }
  return problem(ProblemType::kRefused, "the entry was not recorded", errors);
}

Response outcome_answer(const workshop::RecordOutcome& outcome) {
  if (const auto* recorded = std::get_if<workshop::Recorded>(&outcome)) {
    return json_answer(recorded->receipt.already_there ? 200 : 201, recorded_json(*recorded));
  }
  if (const auto* faults = std::get_if<workshop::Faults>(&outcome)) return fault_answer(*faults);
  if (std::holds_alternative<workshop::ConfirmationNeeded>(outcome)) return confirmation_needed();
  return error_answer(std::get<base::Error>(outcome));
}

/// One item of an array: its status, and the receipt or the problem it would have been alone.
Json item_json(const Response& answer) {
  const auto body = base::parse_json(body_bytes(answer));
  return JsonObject{{"status", answer.status},
                    {answer.status < 300 ? "entry" : "problem", body ? *body : Json(nullptr)}};
}

base::Result<std::optional<base::CivilDate>, Response> read_day(const Query& query,
                                                                const std::string& name) {
  const std::string* text = query.find(name);
  if (text == nullptr) return std::optional<base::CivilDate>{};
  const auto date = base::parse_date(*text);
  if (!date) return refused_value("/query/" + name, date.error().detail);
  return std::optional(*date);
}

base::Result<workshop::EntryQuery, Response> read_entry_query(const Query& query) {
  workshop::EntryQuery wanted;
  wanted.limit = kLimitDefault;
  for (const auto& [name, value] : query.items()) {
    if (name == "kind") {
      wanted.kind = value;
    } else if (name == "subject") {
      wanted.subject = value;
    } else if (name == "person") {
      wanted.person = value;
    } else if (name == "limit") {
      const auto limit = whole_number<std::size_t>(value);
      if (!limit || *limit < 1 || *limit > kLimitMax) {
        return refused_value("/query/limit", "limit must be 1 to " + std::to_string(kLimitMax));
      }
      wanted.limit = *limit;
    } else if (name == "cursor") {
      const auto after = whole_number<std::uint64_t>(value);
      if (!after)
        return refused_value("/query/cursor", "cursor must be a next_cursor given before");
      wanted.after_seq = *after;
    }
  }
  auto from = read_day(query, "from");
  if (!from) return from.error();
  wanted.from = *from;
  auto to = read_day(query, "to");
  if (!to) return to.error();
  wanted.to = *to;
  if (wanted.from && wanted.to && *wanted.to < *wanted.from) {
    return refused_value("/query/to",
                         "to: " + base::format_date(*wanted.to) + " lies before from; " +
                             "accepted: " + base::format_date(*wanted.from) + " or later");
  }
  return wanted;
}

}  // namespace

Response get_entries(const ApiPorts& ports, const Request& request, const Context& context) {
  const std::string tag = book_tag(ports);
  auto wanted = read_entry_query(request.query);
  if (!wanted) return wanted.error();
  const access::InspectionScope scope = scope_of(context);
  if (scope != access::InspectionScope::kEverything) {
    wanted->shows = [scope](std::string_view kind) { return kind_in_scope(scope, kind); };
  }
  if (wanted->kind) {
    const auto form = workshop::show_form(ports.workshop, *wanted->kind);
    if (!form) return refused_value("/query/kind", "kind: " + form.error().detail);
  }
  auto page = workshop::list_entries(ports.workshop, *wanted);
  if (!page) return error_answer(page.error());
  const Json cursor = page->next_after ? Json(std::to_string(*page->next_after)) : Json(nullptr);
  return tagged(
      json_answer(200, JsonObject{{"entries", std::move(page->entries)}, {"next_cursor", cursor}}),
      tag);
}

Response post_entries(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto json = base::parse_json(request.body);
  if (!json) return problem(ProblemType::kMalformed, json.error().detail);
  const workshop::Sender sender = sender_of(context);
  const JsonArray* items = json->array();
  if (items == nullptr) return outcome_answer(workshop::record(ports.workshop, sender, *json));
  if (items->size() > kItemsMax) {
    return problem(ProblemType::kTooLarge,
                   "at most " + std::to_string(kItemsMax) + " entries in one array");
  }
  JsonArray results;
  for (const Json& item : *items) {
    results.push_back(item_json(outcome_answer(workshop::record(ports.workshop, sender, item))));
  }
  return json_answer(200, JsonObject{{"results", std::move(results)}});
}

Response get_unconfirmed_entries(const ApiPorts& ports, const Request&, const Context& context) {
  auto entries = workshop::list_unconfirmed(ports.workshop, actor_of(context));
  if (!entries) return error_answer(entries.error());
  return json_answer(200, JsonObject{{"entries", *std::move(entries)}});
}

Response get_entry(const ApiPorts& ports, const Request&, const Context& context) {
  const auto id = entry_of_path(ports, context);
  if (!id) return id.error();
  return answer_of(workshop::show_entry(ports.workshop, *id));
}

Response get_entry_findings(const ApiPorts& ports, const Request&, const Context& context) {
  const auto id = entry_of_path(ports, context);
  if (!id) return id.error();
  return answer_of(workshop::show_findings_about(ports.workshop, *id));
}

}  // namespace benchwarden::http
