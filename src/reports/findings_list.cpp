#include "reports/findings_list.h"

#include <algorithm>
#include <tuple>

namespace benchwarden::reports {
namespace {

base::CivilDate day_of(const findings::Finding& finding, const base::Zone& zone) {
  return finding.due ? *finding.due : zone.date_of(finding.since);
}

base::Json values_json(const findings::Values& values) {
  base::JsonObject json;
  for (const auto& [name, shown] : values) {
    json.emplace_back(name, base::JsonObject{{"value", shown.value}, {"unit", shown.unit}});
  }
  return json;
}

base::Json acknowledgement_json(const std::optional<AcknowledgementFigures>& acknowledged) {
  if (!acknowledged) return nullptr;
  base::JsonObject json = entry_figures_json(acknowledged->entry);
  json.emplace_back("until", acknowledged->until
                                 ? base::Json(base::format_date(*acknowledged->until))
                                 : base::Json(nullptr));
  json.emplace_back("reason", acknowledged->reason);
  return json;
}

base::Json number_or_null(std::uint64_t entry) {
  return entry == 0 ? base::Json(nullptr) : base::Json(entry);
}

base::Json finding_json(const FindingFigures& one, const base::Zone& zone) {
  const findings::Finding& finding = one.finding;
  const findings::Authority& authority = finding.authority;
  return base::JsonObject{
      {"key", findings::key_of(finding)},
      {"severity", findings::word(finding.severity)},
      {"subject", one.subject},
      {"sentence", one.sentence},
      {"since", base::format_rfc3339(zone.local(finding.since))},
      {"due", finding.due ? base::Json(base::format_date(*finding.due)) : base::Json(nullptr)},
      {"values", values_json(finding.values)},
      {"entries", base::JsonArray(finding.entries.begin(), finding.entries.end())},
      {"rule", authority.rule},
      {"pack", authority.pack},
      {"pack_edition", authority.edition},
      {"says", authority.sentence},
      {"clears", authority.clears},
      {"citation", authority.citation},
      {"confidence", findings::word(authority.confidence)},
      {"acknowledged", acknowledgement_json(one.acknowledged)},
      {"action_closed_by_entry", number_or_null(one.closed_by)}};
}

base::Json due_json(const std::vector<DueFigures>& items) {
  base::JsonArray list;
  for (const DueFigures& item : items) {
    list.emplace_back(base::JsonObject{
        {"day", base::format_date(item.day)},
        {"rule", item.rule},
        {"subject", item.subject},
        {"part", item.part},
        {"sentence", item.sentence},
        {"citation", item.citation},
        {"confidence",
         item.confidence ? base::Json(findings::word(*item.confidence)) : base::Json(nullptr)},
        {"entry", number_or_null(item.entry)}});
  }
  return list;
}

}  // namespace

void sort_findings(std::vector<FindingFigures>& findings, const base::Zone& zone) {
  const auto rank = [&](const FindingFigures& one) {
    const int weight = -static_cast<int>(one.finding.severity);
    return std::tuple(weight, day_of(one.finding, zone), one.subject, one.finding.authority.rule);
  };
  std::stable_sort(
      findings.begin(), findings.end(),
      [&](const FindingFigures& a, const FindingFigures& b) { return rank(a) < rank(b); });
}

std::size_t count_of(const FindingsListFigures& figures, findings::Severity severity) {
  const auto count =
      std::count_if(figures.findings.begin(), figures.findings.end(),
                    [&](const FindingFigures& one) { return one.finding.severity == severity; });
  return static_cast<std::size_t>(count);
}

base::Json findings_list_json(const FindingsListFigures& figures) {
  base::JsonObject json{{"report", "findings-list"}};
  for (base::JsonMember& member : frame_json(figures.frame)) json.push_back(std::move(member));
  base::JsonArray found;
  for (const FindingFigures& one : figures.findings) {
    found.push_back(finding_json(one, figures.zone));
  }
  json.emplace_back("findings", std::move(found));
  json.emplace_back("days_ahead", figures.days_ahead);
  json.emplace_back("due", due_json(figures.due));
  json.emplace_back("planned", due_json(figures.planned));
  return json;
}

}  // namespace benchwarden::reports
