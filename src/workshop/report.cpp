#include "workshop/report.h"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>
#include <vector>

#include "base/sha256.h"
#include "base/text.h"
#include "print/csv.h"
#include "print/html.h"
#include "print/label_svg.h"
#include "print/pdf.h"
#include "print/svg.h"
#include "reports/seal_parts.h"
#include "workshop/record.h"
#include "workshop/report_kinds.h"
#include "workshop/sealing.h"

namespace benchwarden::workshop {
namespace {

base::Error invalid(const std::string& detail) { return {base::ErrorCode::kInvalid, detail}; }

print::PdfOptions options_of(const Ports& ports, const MadeReport& made, print::Paper paper) {
  return {paper, ports.definitions.font_bytes, made.basis.made_at, ports.definitions.layout};
}

base::Result<std::string> to_pdf(const Ports& ports, const MadeReport& made, print::Paper paper) {
  return print::to_pdf(made.document, options_of(ports, made, paper));
}

/// Charts have no paper; labels are drawn as they are on theirs.
base::Result<std::string> to_svg(const Ports& ports, const MadeReport& made, print::Paper paper) {
  if (made.document.form == document::Form::kPages) return print::to_svg(made.document);
  return print::labels_to_svg(made.document, options_of(ports, made, paper));
}

std::string file_stem(const ReportRequest& request) {
  std::vector<std::string> parts{request.name};
  if (request.month) parts.push_back(base::format_month(*request.month));
  if (request.year) parts.push_back(std::to_string(*request.year));
  if (request.subject) {
    if (find_report_kind(request.name)->classes.size() > 1) {
      parts.push_back(request.subject->thing_class);
    }
    if (!request.subject->id.empty()) parts.push_back(request.subject->id);
  }
  if (request.days) {
    parts.push_back(base::format_date(request.days->from));
    parts.push_back(base::format_date(request.days->to));
  }
  return base::join(parts, "-");
}

base::Error too_many_at_work() {
  return {base::ErrorCode::kUnavailable, "too many reports are being made just now"};
}

/// What an issue is asked for by: equal fields under one id are the same issue.
base::JsonObject wanted_fields(const ReportRequest& request) {
  base::JsonObject fields{{"report", request.name},
                          {"paper", std::string(paper_code(request.paper))}};
  if (request.month) fields.emplace_back("month", base::format_month(*request.month));
  if (request.year) fields.emplace_back("year", std::to_string(*request.year));
  if (request.subject) fields.emplace_back(request.subject->thing_class, request.subject->id);
  if (request.days) {
    fields.emplace_back("first_day", base::format_date(request.days->from));
    fields.emplace_back("last_day", base::format_date(request.days->to));
  }
  return fields;
}

/// The digests of what is kept of an issue.
struct IssueDigests {
  std::string pdf;
  std::string figures;
};

/// The entry that says a report was issued, as the daemon submits it.
base::Json issue_submission(const ReportRequest& request, base::Instant now,
                            const reports::Basis& basis, const IssueDigests& digests) {
  base::JsonObject fields = wanted_fields(request);
  fields.emplace_back("report_digest", digests.pdf);
  fields.emplace_back("figures_digest", digests.figures);
  fields.emplace_back("book_size", basis.book_size);
  fields.emplace_back("book_root", base::to_hex(basis.book_root));
  return base::JsonObject{{"id", request.report_id},
                          {"kind", std::string(kIssuedKind)},
                          {"occurred_at", base::format_rfc3339(basis.zone.local(now))},
                          {"fields", std::move(fields)},
                          {"attachments", base::JsonArray{digests.pdf, digests.figures}}};
}

/// Signs the book the report stands on together with its figures, says so in the report, and keeps
/// both.
base::Result<IssueDigests> seal_and_keep(const Ports& ports, const ReportRequest& request,
                                         MadeReport& made) {
  const std::string figures = base::write_canonical_json(made.json);
  const std::string digest = base::to_hex(base::sha256(figures));
  const reports::Basis& basis = made.basis;
  const auto sealed = seal_head(ports, {basis.book_size, basis.book_root}, {"figures " + digest});
  if (!sealed) return sealed.error();
  reports::add_seal(made.document,
                    {basis.book_size, basis.book_root, digest, sealed->verifier_key, sealed->note},
                    ports.definitions.reports.wording);
  const auto pdf = to_pdf(ports, made, request.paper);
  if (!pdf) return pdf.error();
  for (const std::string* bytes : {&*pdf, &figures}) {
    const auto kept = ports.book.keep_attachment(*bytes);
    if (!kept) return kept.error();
  }
  return IssueDigests{base::to_hex(base::sha256(*pdf)), digest};
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
  constexpr std::array<std::string_view, 10> kNames{"report",    "paper",   "month", "year",
                                                    "cylinder",  "tool",    "gauge", "collection",
                                                    "first_day", "last_day"};
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

base::Error not_begun(const std::string& word, const std::string& given,
                      const std::string& latest) {
  return invalid(word + " '" + given + "' has not begun; accepted: " + latest + " or earlier");
}

base::Status<> check_begun(const ReportRequest& request, base::CivilDate today) {
  if (request.month && *request.month > base::month_of(today)) {
    return not_begun("month", base::format_month(*request.month),
                     base::format_month(base::month_of(today)));
  }
  if (request.year && *request.year > today.year) {
    return not_begun("year", std::to_string(*request.year), std::to_string(today.year));
  }
  if (request.days && request.days->from > today) {
    return not_begun("from", base::format_date(request.days->from), base::format_date(today));
  }
  return base::Done{};
}

base::Status<> check_issued(const Ports& ports, const ReportRequest& request, base::Instant now) {
  if (find_report_kind(request.name)->issuing == Issuing::kNever) {
    return invalid(request.name + " is not issued: it is a label or a form to be filled in");
  }
  return check_begun(request, zone_of(*ports.live.view()).date_of(now));
}

}  // namespace

base::Result<ReportFile> make_report(const Ports& ports, const ReportRequest& request) {
  const auto place = ports.costly.enter();
  if (!place) return too_many_at_work();
  const auto made = find_report_kind(request.name)->make(ports, request);
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
    case ReportFormat::kSvg: {
      auto drawing = to_svg(ports, *made, request.paper);
      if (!drawing) return drawing.error();
      if (drawing->empty()) return invalid(stem + " has no chart and no label to be drawn");
      return ReportFile{*std::move(drawing), "image/svg+xml", stem + ".svg",
                        "default-src 'none'; frame-ancestors 'none'"};
    }
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
  const auto begun = check_issued(ports, wanted, now);
  if (!begun) return begun.error();
  ReportRequest request = wanted;
  if (request.report_id.empty()) request.report_id = base::format_uuid(base::new_uuid7(now));
  auto made = find_report_kind(request.name)->make(ports, request);
  if (!made) return made.error();
  const auto digests = seal_and_keep(ports, request, *made);
  if (!digests) return digests.error();

  const Actor daemon{actor.person, "daemon", actor.verified, actor.device};
  // The book may have grown since: the entry names the size and root the report stands on.
  const auto outcome = record(ports, daemon, issue_submission(request, now, made->basis, *digests));
  if (const auto* error = std::get_if<base::Error>(&outcome)) {
    // Another request under the same id may have been quicker.
    auto meanwhile = issued_before(ports, request);
    if (meanwhile) return meanwhile;
    return *error;
  }
  if (const auto* faults = std::get_if<Faults>(&outcome)) {
    return base::Error{base::ErrorCode::kInvalid, faults->front().sentence};
  }
  return issued(request.report_id, std::get<Recorded>(outcome).receipt.seq, digests->pdf, false);
}

base::Result<std::string> issued_file(const Ports& ports, const base::Uuid& id, IssuedPart part) {
  const auto entry = ports.book.entry(id);
  if (!entry) return entry.error();
  const std::vector<std::string>& kept = entry->content.attachments;
  const std::size_t place = part == IssuedPart::kPdf ? 0 : 1;
  if (entry->content.kind != kIssuedKind || kept.size() <= place) {
    return base::Error{base::ErrorCode::kNotFound,
                       base::format_uuid(id) + " is not the entry of an issued report" +
                           (part == IssuedPart::kPdf ? "" : " whose figures were kept")};
  }
  const auto digest = base::digest_from_hex(kept[place]);
  if (!digest) return digest.error();
  return ports.book.attachment(*digest);
}

}  // namespace benchwarden::workshop
