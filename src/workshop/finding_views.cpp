#include "workshop/finding_views.h"

#include <algorithm>
#include <utility>

#include "forms/submission.h"
#include "workshop/chain.h"
#include "workshop/named_findings.h"
#include "workshop/seen_from.h"

namespace benchwarden::workshop {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

Json values_json(const findings::Values& values) {
  JsonObject json;
  for (const auto& [name, shown] : values) {
    json.emplace_back(name, JsonObject{{"value", shown.value}, {"unit", shown.unit}});
  }
  return json;
}

class FindingRenderer {
 public:
  /// Persons are named where `names` are given.
  FindingRenderer(const Definitions& definitions, const NameBook* names,
                  const tallies::State& state, base::Instant now)
      : definitions_(definitions),
        names_(names),
        state_(state),
        zone_(zone_of(state)),
        acknowledged_(entries_naming_findings(state, "finding-acknowledged", zone_.date_of(now))),
        closed_(entries_naming_findings(state, "action-closed", zone_.date_of(now))) {}

  [[nodiscard]] Json finding(const findings::Finding& one) const {
    const std::string key = findings::key_of(one);
    JsonObject json{
        {"key", key},
        {"severity", word(one.severity)},
        {"subject", subject_text(one.subject)},
        {"sentence", sentence_of(definitions_, state_, one.subject, one.says, one.values, names_)},
        {"since", base::format_rfc3339(zone_.local(one.since))},
        {"due", one.due ? Json(base::format_date(*one.due)) : Json(nullptr)},
        {"values", values_json(one.values)},
        {"clears", one.authority.clears},
        {"entries", numbers(one.entries)},
        {"acknowledged_by_entry", entry_of(acknowledged_, key)},
        {"action_closed_by_entry", entry_of(closed_, key)}};
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

  static Json entry_of(const EntryByFinding& by_key, const std::string& key) {
    const auto found = by_key.find(key);
    return found == by_key.end() ? Json(nullptr) : Json(found->second);
  }

  const Definitions& definitions_;
  const NameBook* names_;
  const tallies::State& state_;
  base::Zone zone_;
  EntryByFinding acknowledged_;
  EntryByFinding closed_;
};

JsonArray packs_json(const rules::RuleBook& book) {
  JsonArray packs;
  for (const rules::RuleBook::InForce& pack : book.packs()) {
    packs.push_back(JsonObject{{"pack", pack.id},
                               {"title", pack.title},
                               {"edition", pack.edition},
                               {"remarks", pack.remarks},
                               {"digest", pack.digest}});
  }
  return packs;
}

base::Result<Json> findings_json(const Ports& ports, const tallies::State& state,
                                 base::Instant as_of) {
  const base::Instant moment = std::min(as_of, ports.clock.now());
  const auto book = rules_in_force(ports, state);
  if (!book) return book.error();
  const base::Zone zone = zone_of(state);
  const findings::Judgement said = rules::judge(**book, rules::Scene(state, moment, zone));
  const FindingRenderer render(ports.definitions, &ports.names, state, moment);
  JsonArray all;
  for (const findings::Finding& one : said.findings) all.push_back(render.finding(one));
  JsonArray advice;
  for (const findings::Advice& one : said.advice) advice.push_back(FindingRenderer::advice(one));
  return Json(JsonObject{{"as_of", base::format_rfc3339(zone.local(moment))},
                         {"book_size", state.size()},
                         {"packs", packs_json(**book)},
                         {"findings", std::move(all)},
                         {"advice", std::move(advice)}});
}

Json figures_json(const rules::Rule& rule) {
  JsonObject figures;
  for (const auto& [name, figure] : rule.figures) {
    figures.emplace_back(name, JsonObject{{"value", base::format_decimal(figure.value)},
                                          {"unit", figure.unit},
                                          {"confidence", word(figure.confidence)}});
  }
  return figures;
}

}  // namespace

JsonArray findings_about(const Definitions& definitions, const rules::Scene& scene,
                         const findings::Judgement& said, const findings::Subject& subject) {
  const FindingRenderer render(definitions, nullptr, scene.state(), scene.now());
  JsonArray found;
  for (const findings::Finding& one : said.findings) {
    if (one.subject == subject) found.push_back(render.finding(one));
  }
  return found;
}

base::Result<Json> show_findings(const Ports& ports, const std::optional<Viewpoint>& view) {
  return seen_from(ports, view, [&](const tallies::State& state, base::Instant as_of) {
    return findings_json(ports, state, as_of);
  });
}

base::Result<Json> show_findings_about(const Ports& ports, const base::Uuid& entry) {
  const auto stored = ports.book.entry(entry);
  if (!stored) return stored.error();
  const auto subjects = subjects_of(ports.book, ports.definitions.catalog, stored->content);
  if (!subjects) return subjects.error();
  const auto is_about = [&](const findings::Finding& one) {
    return std::find(subjects->begin(), subjects->end(), subject_text(one.subject)) !=
           subjects->end();
  };
  const base::Instant now = ports.clock.now();
  const auto state = ports.live.still();
  const auto said = judge(ports, *state, now);
  if (!said) return said.error();
  const FindingRenderer render(ports.definitions, &ports.names, *state, now);
  JsonArray about;
  for (const findings::Finding& one : said->findings) {
    if (is_about(one)) about.push_back(render.finding(one));
  }
  return Json(JsonObject{{"as_of", base::format_rfc3339(zone_of(*state).local(now))},
                         {"book_size", state->size()},
                         {"findings", std::move(about)}});
}

base::Result<Json> show_rules(const Ports& ports) {
  const auto book = rules_in_force(ports, *ports.live.view());
  if (!book) return book.error();
  JsonArray all;
  for (const rules::Rule& rule : (*book)->rules()) {
    JsonObject json = authority_json(rule.authority);
    json.emplace_back("kind", rule.kind);
    json.emplace_back("edition", rule.edition);
    json.emplace_back("days", rule.working_days ? "working" : "calendar");
    json.emplace_back("clears", rule.authority.clears);
    json.emplace_back("figures", figures_json(rule));
    all.push_back(std::move(json));
  }
  return Json(JsonObject{{"packs", packs_json(**book)}, {"rules", std::move(all)}});
}

}  // namespace benchwarden::workshop
