#include <algorithm>
#include <tuple>
#include <utility>

#include "reports/findings_list_document.h"
#include "workshop/due.h"
#include "workshop/judgement.h"
#include "workshop/named_findings.h"
#include "workshop/report_input.h"
#include "workshop/report_makers.h"

namespace benchwarden::workshop {
namespace {

constexpr std::string_view kAcknowledged = "finding-acknowledged";

/// The entries that acknowledge a finding or tell of an action about it.
struct NamedFindings {
  EntryByFinding acknowledged;
  EntryByFinding closed;
};

std::uint64_t number_of(const EntryByFinding& by_key, const std::string& key) {
  const auto found = by_key.find(key);
  return found == by_key.end() ? 0 : found->second;
}

reports::AcknowledgementFigures acknowledgement_of(const ReportInput& input,
                                                   const reports::RecordedEntry& recorded) {
  const auto* until = entries::find_field_as<base::CivilDate>(recorded.effective, "until");
  const auto* reason = entries::find_field_as<entries::Text>(recorded.effective, "reason_given");
  return {reports::entry_figures(recorded.entry, input.basis.zone, input.state.claims()),
          until == nullptr ? std::nullopt : std::optional(*until),
          reason == nullptr ? "" : reason->text};
}

std::optional<reports::AcknowledgementFigures> acknowledgement_by(const ReportInput& input,
                                                                  std::uint64_t number) {
  const auto found = std::find_if(
      input.entries.begin(), input.entries.end(),
      [&](const reports::RecordedEntry& recorded) { return recorded.entry.seq == number; });
  if (found == input.entries.end()) return std::nullopt;
  return acknowledgement_of(input, *found);
}

/// "205 L" where the finding holds a measured value against a limit, "" for both where not.
std::pair<std::string, std::string> measured_and_limit(const Ports& ports,
                                                       const tallies::State& state,
                                                       const findings::Values& values) {
  const auto value_of = [&](std::string_view wanted) -> std::string {
    for (const auto& [name, shown] : values) {
      if (name == wanted) return value_text(ports.definitions, state, shown);
    }
    return "";
  };
  std::pair<std::string, std::string> both{value_of("measured"), value_of("limit")};
  if (both.first.empty() || both.second.empty()) return {};
  return both;
}

reports::FindingFigures finding_figures(const Ports& ports, const ReportInput& input,
                                        const NamedFindings& named, findings::Finding finding) {
  reports::FindingFigures figures;
  const std::string key = findings::key_of(finding);
  figures.subject = subject_text(finding.subject);
  figures.sentence = sentence_of(ports.definitions, input.state, finding.subject, finding.says,
                                 finding.values, &ports.names);
  std::tie(figures.measured, figures.limit) =
      measured_and_limit(ports, input.state, finding.values);
  figures.acknowledged = acknowledgement_by(input, number_of(named.acknowledged, key));
  figures.closed_by = number_of(named.closed, key);
  figures.finding = std::move(finding);
  return figures;
}

reports::DueFigures due_figures(const DueItem& item) {
  return {item.day,      item.rule,     item.subject,    item.part,
          item.sentence, item.citation, item.confidence, item.entry.value_or(0)};
}

base::Status<> add_due(const Ports& ports, const ReportInput& input,
                       reports::FindingsListFigures& figures) {
  const auto items =
      due_items_at(ports, input.state, input.basis.made_at, Persons::kByName, kDueDaysAhead);
  if (!items) return items.error();
  figures.days_ahead = kDueDaysAhead;
  for (const DueItem& item : *items) {
    (item.entry ? figures.planned : figures.due).push_back(due_figures(item));
  }
  return base::Done{};
}

NamedFindings named_findings(const ReportInput& input, base::Instant moment) {
  const base::CivilDate day = input.basis.zone.date_of(moment);
  return {entries_naming_findings(input.state, kAcknowledged, day),
          entries_naming_findings(input.state, "action-closed", day)};
}

}  // namespace

base::Result<MadeReport> make_findings_list(const Ports& ports, const ReportRequest& request) {
  auto input = kinds_input(ports, {std::string(kAcknowledged)});
  if (!input) return input.error();
  input->basis.report_id = request.report_id;
  // By the book's own time: the clock would give an equal book other bytes every day.
  const base::Instant moment = input->basis.made_at;
  const NamedFindings named = named_findings(*input, moment);
  auto said = judge(ports, input->state, moment);
  if (!said) return said.error();
  reports::FindingsListFigures figures{
      reports::frame_of(input->state, input->basis, input->names, input->forms),
      input->basis.zone,
      {},
      0,
      {},
      {}};
  for (findings::Finding& finding : said->findings) {
    figures.findings.push_back(finding_figures(ports, *input, named, std::move(finding)));
  }
  reports::sort_findings(figures.findings, figures.zone);
  const auto added = add_due(ports, *input, figures);
  if (!added) return added.error();
  return MadeReport{reports::findings_list_document(figures, ports.definitions.reports),
                    reports::findings_list_json(figures), input->basis};
}

}  // namespace benchwarden::workshop
