#include <algorithm>
#include <utility>

#include "rules/collected.h"
#include "rules/limits.h"
#include "rules/presumed_oil.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"

namespace benchwarden::rules {
namespace {

using entries::CollectionStage;
using findings::Judgement;
using findings::Subject;

bool fits(char sign, char form) {
  const bool letter = sign >= 'A' && sign <= 'Z';
  const bool digit = sign >= '0' && sign <= '9';
  if (form == 'X') return letter || digit;
  if (form == 'A') return letter;
  if (form == '9') return digit;
  return sign == form;
}

/// Whether a number has a form: X stands for a letter A-Z or a digit, A for a letter, 9 for a
/// digit, any other sign for itself. A "?" after one says that it may be missing; those that may be
/// missing stand at the end.
bool has_form(std::string_view number, std::string_view form) {
  while (!form.empty()) {
    const bool optional = form.size() > 1 && form[1] == '?';
    const bool here = !number.empty() && fits(number.front(), form.front());
    if (!here && !optional) return false;
    if (here) number.remove_prefix(1);
    form.remove_prefix(optional ? 2 : 1);
  }
  return number.empty();
}

bool came_back(const Scene& scene, const Collected& collected) {
  const auto& stages = collected.stages;
  return std::any_of(stages.begin(), stages.end(), [&](const auto& told) {
    return told.takes.stage == CollectionStage::kDocumentReturned && told.at <= scene.now() &&
           told.takes.document_number == collected.taken.takes.document_number;
  });
}

/// The signed copy of each document is back within so long of the day a load went under it.
void judge_document_return(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Collected& collected : documents_of(rule, scene)) {
    if (came_back(scene, collected)) continue;
    const findings::Shown number = shown_word(collected.taken.takes.document_number);
    Deadline deadline;
    deadline.subject = collected.subject;
    deadline.says = "document-return";
    const base::CivilDate start = scene.day_of(collected.taken.at);
    deadline.day = scene.later(rule, "limit", start);
    deadline.values = {{"document", number},
                       {"measured", shown_days(base::days_between(start, scene.today()))},
                       {"limit", shown(*rule.figure("limit"))},
                       {"start", shown(start)},
                       {"day", shown(deadline.day)},
                       {"which", number}};
    deadline.entries = {collected.taken.seq};
    judge_deadline(rule, scene, std::move(deadline), said);
  }
}

/// The number of a document has the form that the rule gives.
void judge_document_form(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Collected& collected : documents_of(rule, scene)) {
    const std::string& number = collected.taken.takes.document_number;
    if (has_form(number, rule.setting("form"))) continue;
    auto finding = finding_of(rule, collected.subject, "document-form-over", weight(rule));
    finding.since = collected.taken.at;
    finding.values = {{"measured", shown_word(number)},
                      {"limit", shown_word(rule.setting("form"))},
                      {"day", shown(scene.day_of(collected.taken.at))},
                      {"which", shown_word(number)}};
    finding.entries = {collected.taken.seq};
    said.findings.push_back(std::move(finding));
  }
}

const base::CivilDate* valid_until(const Scene& scene, const std::string& carrier) {
  return entries::find_field_as<base::CivilDate>(scene.attributes({"carrier", carrier}),
                                                 "registration_expires");
}

/// The registration of a carrier the workshop calls on.
void judge_carrier_expiry(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& carrier : scene.subjects(rule, "carrier")) {
    const base::CivilDate* last = valid_until(scene, carrier.id);
    if (last == nullptr) continue;
    judge_deadline(rule, scene, {carrier, "carrier-expiry", *last, {{"day", shown(*last)}}, {}},
                   said);
  }
}

/// A load handed to a carrier after the last day of its registration, as the register had it when
/// the load was taken: a renewal after it does not make it good, a correction of the entry does.
void judge_carrier_at_handover(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Collected& collected : collected_of(rule, scene)) {
    const std::string& carrier = collected.taken.takes.carrier;
    const auto known = scene.state().under_care().thing_at("carrier", carrier, collected.taken.at);
    const base::CivilDate* last =
        known ? entries::find_field_as<base::CivilDate>(known->attributes, "registration_expires")
              : nullptr;
    const base::CivilDate day = scene.day_of(collected.taken.at);
    if (last == nullptr || day <= *last) continue;
    auto finding = finding_of(rule, collected.subject, "carrier-at-handover-over", weight(rule));
    finding.since = collected.taken.at;
    finding.values = {
        {"carrier", shown_word(tallies::word(scene.attributes({"carrier", carrier}), "name"))},
        {"measured", shown(day)},
        {"limit", shown(*last)},
        {"which", shown_word(collected.taken.takes.document_number)}};
    finding.entries = {collected.taken.seq};
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

std::vector<RuleKind> collection_kinds() {
  return {{"document-return",
           {{"limit", {"d", "months"}}, {"warn", {"d"}, false}, halogens()},
           {loads(), without_types()},
           judge_document_return,
           "collection"},
          {"document-form",
           {},
           {weighs(), loads(), without_types(), {"form", {}}},
           judge_document_form,
           "collection"},
          {"carrier-expiry", {{"warn", {"d"}, false}}, {}, judge_carrier_expiry, "carrier"},
          {"carrier-at-handover",
           {},
           {weighs(), loads(), without_types()},
           judge_carrier_at_handover,
           "collection"}};
}

}  // namespace benchwarden::rules
