#include "workshop/finding_views.h"

#include <algorithm>
#include <map>
#include <utility>

#include "forms/submission.h"
#include "tallies/facts.h"
#include "workshop/chain.h"
#include "workshop/seen_from.h"

namespace benchwarden::workshop {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

std::string_view word(findings::Severity severity) {
  if (severity == findings::Severity::kNote) return "note";
  return severity == findings::Severity::kDue ? "due" : "over";
}

std::string_view word(findings::Confidence confidence) {
  if (confidence == findings::Confidence::kTextSeen) return "text-seen";
  return confidence == findings::Confidence::kSecondHand ? "second-hand" : "from-memory";
}

std::string subject_text(const findings::Subject& subject) {
  return subject.thing_class.empty() ? "workshop/site" : subject.thing_class + "/" + subject.id;
}

JsonObject authority_json(const findings::Authority& authority) {
  return {{"rule", authority.rule},
          {"pack", authority.pack},
          {"pack_edition", authority.edition},
          {"says", authority.sentence},
          {"citation", authority.citation},
          {"confidence", word(authority.confidence)}};
}

Json values_json(const findings::Values& values) {
  JsonObject json;
  for (const auto& [name, shown] : values) {
    json.emplace_back(name, JsonObject{{"value", shown.value}, {"unit", shown.unit}});
  }
  return json;
}

/// Entries that acknowledge, by the key they name.
std::map<std::string, std::uint64_t, std::less<>> acknowledged(const tallies::State& state) {
  std::map<std::string, std::uint64_t, std::less<>> by_key;
  for (const tallies::Record& record : state.records("", "finding-acknowledged")) {
    if (record.struck) continue;
    by_key.insert_or_assign(std::string(tallies::word(record.fields(), "finding")), record.seq);
  }
  return by_key;
}

class Renderer {
 public:
  Renderer(const Definitions& definitions, const tallies::State& state)
      : definitions_(definitions),
        state_(state),
        zone_(zone_of(state)),
        acknowledged_(acknowledged(state)) {}

  [[nodiscard]] Json finding(const findings::Finding& one) const {
    const std::string key = findings::key_of(one);
    const auto seen = acknowledged_.find(key);
    JsonObject json{
        {"key", key},
        {"severity", word(one.severity)},
        {"subject", subject_text(one.subject)},
        {"sentence", sentence_of(definitions_, state_, one.subject, one.says, one.values)},
        {"since", base::format_rfc3339(zone_.local(one.since))},
        {"due", one.due ? Json(base::format_date(*one.due)) : Json(nullptr)},
        {"values", values_json(one.values)},
        {"clears", one.authority.clears},
        {"entries", numbers(one.entries)},
        {"acknowledged_by_entry",
         seen == acknowledged_.end() ? Json(nullptr) : Json(seen->second)}};
    JsonObject authority = authority_json(one.authority);
    std::move(authority.begin(), authority.end(), std::back_inserter(json));
    return json;
  }

  static Json advice(const findings::Advice& one) {
    JsonObject json{{"subject", subject_text(one.subject)}};
    JsonObject authority = authority_json(one.authority);
    std::move(authority.begin(), authority.end(), std::back_inserter(json));
    return json;
  }

 private:
  static JsonArray numbers(const std::vector<std::uint64_t>& entries) {
    return {entries.begin(), entries.end()};
  }

  const Definitions& definitions_;
  const tallies::State& state_;
  base::Zone zone_;
  std::map<std::string, std::uint64_t, std::less<>> acknowledged_;
};

JsonArray packs_json(const rules::RuleBook& book) {
  JsonArray packs;
  for (const rules::RuleBook::InForce& pack : book.packs()) {
    packs.push_back(JsonObject{{"pack", pack.id},
                               {"title", pack.title},
                               {"edition", pack.edition},
                               {"remarks", pack.remarks}});
  }
  return packs;
}

Json findings_json(const Ports& ports, const tallies::State& state, base::Instant as_of) {
  const base::Instant moment = std::min(as_of, ports.clock.now());
  const rules::RuleBook book = rules_in_force(ports.definitions, state);
  const base::Zone zone = zone_of(state);
  const findings::Judgement said = rules::judge(book, rules::Scene(state, moment, zone));
  const Renderer render(ports.definitions, state);
  JsonArray all;
  for (const findings::Finding& one : said.findings) all.push_back(render.finding(one));
  JsonArray advice;
  for (const findings::Advice& one : said.advice) advice.push_back(Renderer::advice(one));
  return JsonObject{{"as_of", base::format_rfc3339(zone.local(moment))},
                    {"book_size", state.size()},
                    {"packs", packs_json(book)},
                    {"findings", std::move(all)},
                    {"advice", std::move(advice)}};
}

Json figures_json(const rules::Rule& rule) {
  JsonObject figures;
  for (const auto& [name, figure] : rule.figures) {
    figures.emplace_back(
        name, JsonObject{{"value", base::format_decimal(figure.value)}, {"unit", figure.unit}});
  }
  return figures;
}

}  // namespace

base::Result<Json> show_findings(const Ports& ports, const std::optional<Viewpoint>& view) {
  return seen_from(ports, view, [&](const tallies::State& state, base::Instant as_of) {
    return findings_json(ports, state, as_of);
  });
}

JsonArray findings_about(const Ports& ports, const base::Uuid& entry) {
  const auto stored = ports.book.entry(entry);
  if (!stored) return {};
  const auto subjects = subjects_of(ports.book, ports.definitions.catalog, stored->content);
  if (!subjects) return {};
  const auto state = ports.live.view();
  const findings::Judgement said = judge(ports.definitions, *state, ports.clock.now());
  const Renderer render(ports.definitions, *state);
  JsonArray found;
  for (const findings::Finding& one : said.findings) {
    const bool named =
        std::find(subjects->begin(), subjects->end(), subject_text(one.subject)) != subjects->end();
    if (named) found.push_back(render.finding(one));
  }
  return found;
}

Json show_rules(const Ports& ports) {
  const rules::RuleBook book = rules_in_force(ports.definitions, *ports.live.view());
  JsonArray all;
  for (const rules::Rule& rule : book.rules()) {
    JsonObject json = authority_json(rule.authority);
    json.emplace_back("kind", rule.kind);
    json.emplace_back("edition", rule.edition);
    json.emplace_back("days", rule.working_days ? "working" : "calendar");
    json.emplace_back("clears", rule.authority.clears);
    json.emplace_back("figures", figures_json(rule));
    all.push_back(std::move(json));
  }
  return JsonObject{{"packs", packs_json(book)}, {"rules", std::move(all)}};
}

}  // namespace benchwarden::workshop
