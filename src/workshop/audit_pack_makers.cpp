#include <algorithm>
#include <cstdint>
#include <memory>
#include <set>
#include <utility>

#include "document/entries_told.h"
#include "reports/audit_pack_document.h"
#include "workshop/report_input.h"
#include "workshop/report_makers.h"

namespace benchwarden::workshop {
namespace {

/// What a pack may span, so that making one holds nobody up for long.
constexpr int kPackMonthsMax = 36;

/// A report to be bound in: which, and its name for machines.
struct Wanted {
  std::string name;
  ReportRequest request;
};

class WantedParts {
 public:
  explicit WantedParts(const ReportRequest& pack) : pack_(pack) {}

  void add(const std::string& report) { wanted_.push_back({report, request_of(report)}); }
  void add(const std::string& report, base::CivilMonth month) {
    ReportRequest request = request_of(report);
    request.month = month;
    wanted_.push_back({report + "/" + base::format_month(month), std::move(request)});
  }
  void add_year(int year) {
    ReportRequest request = request_of("waste-year");
    request.year = year;
    wanted_.push_back({"waste-year/" + std::to_string(year), std::move(request)});
  }
  void add(const std::string& report, const findings::Subject& subject) {
    ReportRequest request = request_of(report);
    request.subject = subject;
    wanted_.push_back({report + "/" + subject.thing_class + "/" + subject.id, std::move(request)});
  }
  [[nodiscard]] const std::vector<Wanted>& all() const { return wanted_; }

 private:
  [[nodiscard]] ReportRequest request_of(const std::string& report) const {
    ReportRequest request;
    request.name = report;
    request.report_id = pack_.report_id;
    return request;
  }

  const ReportRequest& pack_;
  std::vector<Wanted> wanted_;
};

/// Those of the days that had begun when the last entry was recorded.
std::vector<base::CivilMonth> months_of(const Days& days, base::CivilDate reached) {
  std::vector<base::CivilMonth> months;
  const base::CivilMonth last = base::month_of(std::min(days.to, reached));
  for (base::CivilMonth month = base::month_of(days.from); month <= last;
       month = base::next_month(month)) {
    months.push_back(month);
  }
  return months;
}

/// Those of which every month stands in the pack, as far as they have begun.
void add_years(const Days& days, base::CivilDate reached, WantedParts& parts) {
  const int last = std::min(days.to, reached).year;
  for (int year = days.from.year; year <= last; ++year) {
    const bool whole =
        days.from <= base::first_day({year, 1}) && base::last_day({year, 12}) <= days.to;
    if (whole) parts.add_year(year);
  }
}

/// Whether the thing was under care on one of the days: entered before they ended, and not retired
/// before they began.
bool was_under_care(const tallies::Register& under_care, const findings::Subject& thing,
                    base::Instant from, base::Instant until) {
  const auto entered = under_care.entered_at(thing.thing_class, thing.id);
  if (!entered || *entered >= until) return false;
  const auto before = under_care.thing_at(thing.thing_class, thing.id, from);
  return before && !before->retired;
}

void add_histories(const ReportInput& input, const Days& days, WantedParts& parts) {
  const base::Instant from = input.basis.zone.start_of(days.from);
  const base::Instant until = input.basis.zone.start_of(base::add_days(days.to, 1));
  const tallies::Register& under_care = input.state.under_care();
  for (const char* thing_class : {"cylinder", "tool", "gauge"}) {
    for (const auto& [id, thing] : under_care.things(thing_class)) {
      const findings::Subject subject{thing_class, id};
      if (!was_under_care(under_care, subject, from, until)) continue;
      const bool is_cylinder = subject.thing_class == "cylinder";
      parts.add(is_cylinder ? "cylinder-history" : "tool-history", subject);
    }
  }
}

/// Those of which something was taken on the days.
void add_collections(const ReportInput& input, const Days& days, WantedParts& parts) {
  const base::Instant from = input.basis.zone.start_of(days.from);
  const base::Instant until = input.basis.zone.start_of(base::add_days(days.to, 1));
  for (const auto& [id, stages] : input.state.collections()) {
    const bool taken = std::any_of(stages.begin(), stages.end(), [&](const auto& told) {
      return told.takes.stage == entries::CollectionStage::kTaken && told.at >= from &&
             told.at < until;
    });
    if (taken) parts.add("collection-sheet", findings::Subject{"collection", id});
  }
}

/// In the order they are bound.
WantedParts parts_of(const ReportInput& input, const ReportRequest& request) {
  WantedParts parts(request);
  parts.add("findings-list");
  const base::CivilDate reached = input.basis.zone.date_of(input.basis.made_at);
  for (const base::CivilMonth month : months_of(*request.days, reached)) {
    parts.add("waste-month", month);
  }
  add_years(*request.days, reached, parts);
  add_collections(input, *request.days, parts);
  add_histories(input, *request.days, parts);
  return parts;
}

/// The entries that have a line in one of the reports.
std::set<std::uint64_t> told_in(const std::vector<reports::PackPart>& parts) {
  std::set<std::uint64_t> told;
  for (const reports::PackPart& part : parts) told.merge(document::entries_told(part.document));
  return told;
}

int month_count(const Days& days) {
  const base::CivilMonth from = base::month_of(days.from);
  const base::CivilMonth to = base::month_of(days.to);
  return (to.year - from.year) * 12 + to.month - from.month + 1;
}

base::Status<> check_span(const Days& days) {
  if (month_count(days) <= kPackMonthsMax) return base::Done{};
  return base::Error{base::ErrorCode::kInvalid, "from=" + base::format_date(days.from) +
                                                    " to=" + base::format_date(days.to) +
                                                    " touch too many months; accepted: up to " +
                                                    std::to_string(kPackMonthsMax)};
}

/// Made of a book that stands still meanwhile, whatever is recorded.
base::Result<MadeReport> make_of(const Ports& ports, const ReportRequest& request) {
  auto input = days_input(ports, *request.days);
  if (!input) return input.error();
  input->basis.report_id = request.report_id;
  std::vector<reports::PackPart> documents;
  std::vector<reports::PackedReport> figures_of_parts;
  const WantedParts parts = parts_of(*input, request);
  for (const Wanted& wanted : parts.all()) {
    auto made = find_report_kind(wanted.request.name)->make(ports, wanted.request);
    if (!made) return made.error();
    documents.push_back({wanted.name, std::move(made->document)});
    figures_of_parts.push_back({wanted.name, std::move(made->json)});
  }
  const reports::AuditPackFigures figures = reports::make_audit_pack(
      {input->state, request.days->from, request.days->to, input->basis, std::move(input->entries),
       told_in(documents), std::move(input->names), std::move(input->forms)});
  return MadeReport{
      reports::audit_pack_document(figures, std::move(documents), ports.definitions.reports),
      reports::audit_pack_json(figures, std::move(figures_of_parts)), input->basis};
}

}  // namespace

base::Result<MadeReport> make_audit_pack(const Ports& ports, const ReportRequest& request) {
  const auto spans = check_span(*request.days);
  if (!spans) return spans.error();
  const std::unique_ptr<LiveState> still = ports.live.standing_still();
  return make_of({ports.book, *still, ports.definitions, ports.clock, ports.names, ports.admission,
                  ports.costly, ports.packs},
                 request);
}

}  // namespace benchwarden::workshop
