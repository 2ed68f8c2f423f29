#include "workshop/report.h"

#include <algorithm>
#include <array>
#include <utility>

#include "base/base64.h"
#include "base/sha256.h"
#include "print/csv.h"
#include "print/html.h"
#include "reports/cylinder_history_document.h"
#include "reports/tool_history_document.h"
#include "reports/waste_month_document.h"
#include "rules/courses.h"
#include "workshop/judgement.h"
#include "workshop/record.h"
#include "workshop/report_input.h"

namespace benchwarden::workshop {
namespace {

constexpr std::string_view kIssuedKind = "report-issued";

base::Error invalid(const std::string& detail) { return {base::ErrorCode::kInvalid, detail}; }

/// A report as figures: what is printed, and the same for machines.
struct Made {
  document::Document document;
  base::Json json;
  reports::Basis basis;
};

base::Result<Made> make_waste_month(const Ports& ports, const ReportRequest& request) {
  auto input = waste_month_input(ports, *request.month);
  if (!input) return input.error();
  input->basis.report_id = request.report_id;
  const reports::WasteMonthFigures figures =
      reports::make_waste_month({input->state, *request.month, input->basis, input->entries,
                                 input->names, input->forms, input->closing});
  return Made{reports::waste_month_document(figures, ports.definitions.reports),
              reports::waste_month_json(figures), input->basis};
}

base::Error not_in_register(const findings::Subject& thing) {
  return {base::ErrorCode::kNotFound,
          "there is no " + thing.thing_class + " '" + thing.id + "' in the register"};
}

/// "gauge/g1" of a history of tools and gauges, "n1" of one of cylinders.
base::Result<findings::Subject> subject_of(const ReportRequest& request) {
  if (request.name == "cylinder-history") return findings::Subject{"cylinder", *request.subject};
  const std::size_t mark = request.subject->find('/');
  findings::Subject thing{request.subject->substr(0, mark),
                          mark == std::string::npos ? "" : request.subject->substr(mark + 1)};
  if ((thing.thing_class != "tool" && thing.thing_class != "gauge") || thing.id.empty()) {
    return invalid("subject '" + *request.subject +
                   "'; accepted: tool/ or gauge/ and its name in the register, as in gauge/g1");
  }
  return thing;
}

/// The figures every history has, and what more is told of the thing by then.
struct MadeHistory {
  ReportInput input;
  reports::HistoryFigures figures;
};

base::Result<MadeHistory> make_history(const Ports& ports, const ReportRequest& request,
                                       std::string_view check_kind) {
  const auto thing = subject_of(request);
  if (!thing) return thing.error();
  auto input = history_input(ports, *thing, check_kind);
  if (!input) return input.error();
  input->basis.report_id = request.report_id;
  reports::HistoryFigures figures =
      reports::make_history({input->state, thing->thing_class, thing->id, input->basis,
                             input->entries, input->changes, input->names, input->forms});
  if (!figures.known) return not_in_register(*thing);
  return MadeHistory{*std::move(input), std::move(figures)};
}

rules::Scene scene_of(const ReportInput& input) {
  return {input.state, input.basis.as_of, input.basis.zone};
}

base::Result<Made> make_cylinder_history(const Ports& ports, const ReportRequest& request) {
  auto made = make_history(ports, request, "cylinder-check");
  if (!made) return made.error();
  const auto book = rules_in_force(ports, made->input.state);
  if (!book) return book.error();
  const reports::CylinderHistoryFigures figures{
      std::move(made->figures),
      rules::cylinder_course(**book, scene_of(made->input), *request.subject)};
  return Made{reports::cylinder_history_document(figures, ports.definitions.reports),
              reports::cylinder_history_json(figures), made->input.basis};
}

base::Result<Made> make_tool_history(const Ports& ports, const ReportRequest& request) {
  auto made = make_history(ports, request, "tool-inspection");
  if (!made) return made.error();
  const findings::Subject thing{made->figures.thing_class, made->figures.id};
  const reports::ToolHistoryFigures figures{std::move(made->figures),
                                            rules::gauge_course(scene_of(made->input), thing)};
  return Made{reports::tool_history_document(figures, ports.definitions.reports),
              reports::tool_history_json(figures), made->input.basis};
}

struct Kind {
  std::string_view name;
  bool by_month;  ///< else by subject
  base::Result<Made> (*make)(const Ports&, const ReportRequest&);
};
constexpr std::array kKinds = {Kind{"cylinder-history", false, make_cylinder_history},
                               Kind{"tool-history", false, make_tool_history},
                               Kind{"waste-month", true, make_waste_month}};

const Kind* find_kind(std::string_view name) {
  const auto* found = std::find_if(kKinds.begin(), kKinds.end(),
                                   [&](const Kind& kind) { return kind.name == name; });
  return found == kKinds.end() ? nullptr : found;
}

std::optional<ReportFormat> format_of(std::string_view name) {
  if (name == "pdf") return ReportFormat::kPdf;
  if (name == "html") return ReportFormat::kHtml;
  if (name == "csv") return ReportFormat::kCsv;
  if (name == "json") return ReportFormat::kJson;
  return std::nullopt;
}

std::optional<print::Paper> paper_of(std::string_view name) {
  if (name == "a4") return print::Paper::kA4;
  if (name == "letter") return print::Paper::kLetter;
  return std::nullopt;
}

base::Result<std::string> to_pdf(const Ports& ports, const Made& made, print::Paper paper) {
  return print::to_pdf(made.document, {paper, ports.definitions.font_bytes, made.basis.made_at,
                                       ports.definitions.layout});
}

std::string file_stem(const ReportRequest& request) {
  std::string of = request.month ? base::format_month(*request.month) : *request.subject;
  std::replace(of.begin(), of.end(), '/', '-');
  return request.name + "-" + of;
}

base::Error too_many_at_work() {
  return {base::ErrorCode::kUnavailable, "too many reports are being made just now"};
}

/// What an issue is asked for by: equal fields under one id are the same issue.
base::JsonObject wanted_fields(const ReportRequest& request) {
  base::JsonObject fields{{"report", request.name},
                          {"paper", request.paper == print::Paper::kA4 ? "a4" : "letter"}};
  if (request.month) fields.emplace_back("month", base::format_month(*request.month));
  if (request.subject) {
    const auto thing = subject_of(request);
    if (thing) fields.emplace_back(thing->thing_class, thing->id);
  }
  return fields;
}

/// The entry that says a report was issued, as the daemon submits it.
base::Json issue_submission(const ReportRequest& request, base::Instant now,
                            const reports::Basis& basis, const std::string& digest) {
  base::JsonObject fields = wanted_fields(request);
  fields.emplace_back("report_digest", digest);
  fields.emplace_back("book_size", basis.book_size);
  fields.emplace_back("book_root", base::to_hex(basis.book_root));
  return base::JsonObject{{"id", request.report_id},
                          {"kind", std::string(kIssuedKind)},
                          {"occurred_at", base::format_rfc3339(basis.zone.local(now))},
                          {"fields", std::move(fields)},
                          {"attachments", base::JsonArray{digest}}};
}

Issued issued(const std::string& id, std::uint64_t seq, const std::string& digest,
              bool already_there) {
  return {base::JsonObject{{"id", id},
                           {"seq", seq},
                           {"digest", digest},
                           {"pdf", "/api/v1/reports/issued/" + id + ".pdf"}},
          already_there};
}

/// Whether the entry says that just this was issued.
bool is_issue_of(const entries::Content& content, const ReportRequest& request) {
  if (content.kind != kIssuedKind) return false;
  const base::Json stored = entries::fields_json(content.fields);
  const base::Json wanted = wanted_fields(request);
  constexpr std::array<std::string_view, 6> kNames{"report",   "paper", "month",
                                                   "cylinder", "tool",  "gauge"};
  return std::all_of(kNames.begin(), kNames.end(), [&](std::string_view name) {
    const base::Json* then = stored.find(name);
    const base::Json* now = wanted.find(name);
    return then == nullptr || now == nullptr ? then == now : *then == *now;
  });
}

/// The answer to an issue that is in the book already; kNotFound when its id is free.
base::Result<Issued> issued_before(const Ports& ports, const ReportRequest& request) {
  const auto id = base::parse_uuid(request.report_id);
  if (!id) return base::Error{base::ErrorCode::kNotFound, "no id was given"};
  const auto entry = ports.book.entry(*id);
  if (!entry) return entry.error();
  if (!is_issue_of(entry->content, request) || entry->content.attachments.empty()) {
    return base::Error{base::ErrorCode::kConflict,
                       "an entry with this id and other content is in the book as no. " +
                           std::to_string(entry->seq)};
  }
  return issued(request.report_id, entry->seq, entry->content.attachments.front(), true);
}

base::Status<> check_begun(const Ports& ports, const ReportRequest& request, base::Instant now) {
  const base::CivilMonth current = zone_of(*ports.live.view()).month_of(now);
  if (!request.month || *request.month <= current) return base::Done{};
  return invalid("month '" + base::format_month(*request.month) +
                 "' has not begun; accepted: " + base::format_month(current) + " or earlier");
}

}  // namespace

base::Result<ReportRequest> read_report_request(const ReportWords& words) {
  const Kind* kind = find_kind(words.name);
  if (kind == nullptr) {
    return base::Error{base::ErrorCode::kNotFound,
                       "there is no report '" + words.name +
                           "'; there are cylinder-history, tool-history and waste-month"};
  }
  ReportRequest request;
  request.name = words.name;
  const auto format = format_of(words.format);
  if (!format) return invalid("format '" + words.format + "'; accepted: pdf, html, csv, json");
  request.format = *format;
  const auto paper = paper_of(words.paper);
  if (!paper) return invalid("paper '" + words.paper + "'; accepted: a4, letter");
  request.paper = *paper;
  if (kind->by_month != words.month.has_value() || kind->by_month == words.subject.has_value()) {
    return invalid(words.name + (kind->by_month ? " needs month=YYYY-MM and nothing else"
                                                : " needs subject= and nothing else"));
  }
  if (words.month) {
    const auto month = base::parse_month(*words.month);
    if (!month) return month.error();
    request.month = *month;
  }
  request.subject = words.subject;
  if (request.subject) {
    const auto thing = subject_of(request);
    if (!thing) return thing.error();
  }
  if (words.id) {
    const auto id = base::parse_uuid(*words.id);
    if (!id) return invalid("id '" + *words.id + "'; accepted: a UUID (RFC 9562)");
    request.report_id = base::format_uuid(*id);
  }
  return request;
}

base::Result<ReportFile> make_report(const Ports& ports, const ReportRequest& request) {
  const auto place = ports.costly.enter();
  if (!place) return too_many_at_work();
  const auto made = find_kind(request.name)->make(ports, request);
  if (!made) return made.error();
  const std::string stem = file_stem(request);
  switch (request.format) {
    case ReportFormat::kHtml:
      return ReportFile{print::to_html(made->document), "text/html; charset=utf-8", stem + ".html",
                        "default-src 'none'; style-src " + print::html_style_source() +
                            "; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"};
    case ReportFormat::kCsv:
      return ReportFile{print::to_csv(made->document), "text/csv; charset=utf-8; header=present",
                        stem + ".csv", ""};
    case ReportFormat::kJson:
      return ReportFile{base::write_json(made->json) + "\n", "application/json", stem + ".json",
                        ""};
    case ReportFormat::kPdf:
      break;
  }
  auto pdf = to_pdf(ports, *made, request.paper);
  if (!pdf) return pdf.error();
  return ReportFile{*std::move(pdf), "application/pdf", stem + ".pdf", ""};
}

base::Result<Issued> issue_report(const Ports& ports, const Actor& actor,
                                  const ReportRequest& wanted) {
  if (ports.definitions.origin != FileOrigin::kBuiltIn) {
    return base::Error{base::ErrorCode::kForbidden,
                       "reports made with other data files than the built-in ones are not issued"};
  }
  const auto place = ports.costly.enter();
  if (!place) return too_many_at_work();
  auto before = issued_before(ports, wanted);
  if (before || before.error().code != base::ErrorCode::kNotFound) return before;
  const base::Instant now = ports.clock.now();
  const auto begun = check_begun(ports, wanted, now);
  if (!begun) return begun.error();
  ReportRequest request = wanted;
  if (request.report_id.empty()) request.report_id = base::format_uuid(base::new_uuid7(now));
  const auto made = find_kind(request.name)->make(ports, request);
  if (!made) return made.error();
  const auto pdf = to_pdf(ports, *made, request.paper);
  if (!pdf) return pdf.error();
  const auto kept = ports.book.keep_attachment(*pdf);
  if (!kept) return kept.error();

  const std::string digest = base::to_hex(base::sha256(*pdf));
  const Actor daemon{actor.person, "daemon", actor.verified, actor.device};
  // The book may have grown since: the entry names the size and root the report stands on.
  const auto outcome = record(ports, daemon, issue_submission(request, now, made->basis, digest));
  if (const auto* error = std::get_if<base::Error>(&outcome)) {
    // Another request under the same id may have been quicker.
    auto meanwhile = issued_before(ports, request);
    if (meanwhile) return meanwhile;
    return *error;
  }
  if (const auto* faults = std::get_if<Faults>(&outcome)) {
    return base::Error{base::ErrorCode::kInvalid, faults->front().sentence};
  }
  return issued(request.report_id, std::get<Recorded>(outcome).receipt.seq, digest, false);
}

base::Result<std::string> issued_pdf(const Ports& ports, const base::Uuid& id) {
  const auto entry = ports.book.entry(id);
  if (!entry) return entry.error();
  if (entry->content.kind != kIssuedKind || entry->content.attachments.empty()) {
    return base::Error{base::ErrorCode::kNotFound,
                       base::format_uuid(id) + " is not the entry of an issued report"};
  }
  const auto digest = base::digest_from_hex(entry->content.attachments.front());
  if (!digest) return digest.error();
  return ports.book.attachment(*digest);
}

}  // namespace benchwarden::workshop
