#include "reports/audit_pack.h"

#include <algorithm>
#include <array>

#include "entries/leaf.h"

namespace benchwarden::reports {
namespace {

constexpr std::string_view kIssuedKind = "report-issued";
// The fields of such an entry that do not say what the report is about.
constexpr std::array<std::string_view, 5> kOfTheIssue{"report", "paper", "report_digest",
                                                      "book_size", "book_root"};

bool is_within(const AuditPackInput& input, base::Timestamp occurred_at) {
  const base::CivilDate day = input.basis.zone.date_of(occurred_at.instant);
  return input.first <= day && day <= input.last;
}

std::string text_of(const entries::Fields& fields, std::string_view name) {
  const auto* text = entries::find_field_as<entries::Text>(fields, name);
  return text == nullptr ? "" : text->text;
}

IssuedFigures issued_figures(const AuditPackInput& input, const RecordedEntry& recorded) {
  const entries::Fields& fields = recorded.effective;
  IssuedFigures issued;
  issued.entry = entry_figures(recorded.entry, input.basis.zone, input.state.claims());
  issued.report = text_of(fields, "report");
  issued.digest = text_of(fields, "report_digest");
  const auto* size = entries::find_field_as<quantities::Quantity>(fields, "book_size");
  if (size != nullptr)
    issued.book_size = static_cast<std::uint64_t>(size->value.thousandths) / 1000;
  for (const entries::Field& field : fields) {
    const bool of_issue =
        std::find(kOfTheIssue.begin(), kOfTheIssue.end(), field.name) != kOfTheIssue.end();
    if (!of_issue) issued.about.push_back(field);
  }
  return issued;
}

void add_corrections(const AuditPackInput& input, const RecordedEntry& recorded,
                     std::vector<CorrectionFigures>& corrections) {
  for (CorrectionFigures& one : corrections_of(recorded, input.basis.zone, input.state.claims())) {
    if (is_within(input, one.by.occurred_at)) corrections.push_back(std::move(one));
  }
}

base::Json issued_json(const IssuedFigures& issued) {
  base::JsonObject json = entry_figures_json(issued.entry);
  json.emplace_back("report", issued.report);
  json.emplace_back("about", entries::fields_json(issued.about));
  json.emplace_back("digest", issued.digest);
  json.emplace_back("book_size", issued.book_size);
  return json;
}

}  // namespace

AuditPackFigures make_audit_pack(const AuditPackInput& input) {
  AuditPackFigures figures{frame_of(input.state, input.basis, input.names, input.forms),
                           input.basis.zone,
                           input.first,
                           input.last,
                           {},
                           {},
                           {},
                           {}};
  for (const RecordedEntry& recorded : input.entries) {
    add_corrections(input, recorded, figures.corrections);
    if (!is_within(input, recorded.entry.content.occurred_at)) continue;
    const std::string& kind = recorded.entry.content.kind;
    if (kind == kRegisterChange) {
      figures.changes.push_back(history_line(recorded, input.basis.zone, input.state.claims()));
    } else if (kind == kIssuedKind) {
      figures.issued.push_back(issued_figures(input, recorded));
    } else if (!input.told.contains(recorded.entry.seq)) {
      figures.others.push_back(history_line(recorded, input.basis.zone, input.state.claims()));
    }
  }
  std::stable_sort(figures.corrections.begin(), figures.corrections.end(),
                   [](const auto& a, const auto& b) { return a.by.seq < b.by.seq; });
  return figures;
}

base::Json audit_pack_json(const AuditPackFigures& figures, std::vector<PackedReport> parts) {
  base::JsonObject json{{"report", "audit-pack"},
                        {"from", base::format_date(figures.first)},
                        {"to", base::format_date(figures.last)}};
  for (base::JsonMember& member : frame_json(figures.frame)) json.push_back(std::move(member));
  base::JsonArray corrections;
  for (const CorrectionFigures& one : figures.corrections) {
    corrections.push_back(correction_json(one));
  }
  base::JsonArray issued;
  for (const IssuedFigures& one : figures.issued) issued.push_back(issued_json(one));
  base::JsonArray bound;
  for (PackedReport& part : parts) {
    bound.emplace_back(
        base::JsonObject{{"name", std::move(part.name)}, {"figures", std::move(part.json)}});
  }
  json.emplace_back("changes", history_lines_json(figures.changes));
  json.emplace_back("corrections", std::move(corrections));
  json.emplace_back("issued", std::move(issued));
  json.emplace_back("others", history_lines_json(figures.others));
  json.emplace_back("parts", std::move(bound));
  return json;
}

}  // namespace benchwarden::reports
