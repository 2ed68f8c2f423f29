#include "workshop/report_request.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>
#include <vector>

#include "base/text.h"
#include "base/uuid.h"
#include "workshop/report_kinds.h"

namespace benchwarden::workshop {
namespace {

template <class Value>
struct Named {
  std::string_view name;
  Value value;
};

constexpr std::array kFormats = {Named<ReportFormat>{"pdf", ReportFormat::kPdf},
                                 Named<ReportFormat>{"html", ReportFormat::kHtml},
                                 Named<ReportFormat>{"csv", ReportFormat::kCsv},
                                 Named<ReportFormat>{"json", ReportFormat::kJson},
                                 Named<ReportFormat>{"svg", ReportFormat::kSvg}};

base::Error not_accepted(const std::string& what, std::string_view given,
                         const std::string& accepted) {
  return {base::ErrorCode::kInvalid, what + " '" + std::string(given) + "'; accepted: " + accepted};
}

/// The choice of that name.
template <class Choice, std::size_t kCount>
base::Result<decltype(Choice::value)> chosen(const std::string& what, std::string_view given,
                                             const std::array<Choice, kCount>& choices) {
  std::vector<std::string> names;
  for (const Choice& choice : choices) {
    if (choice.name == given) return choice.value;
    names.emplace_back(choice.name);
  }
  return not_accepted(what, given, base::join(names, ", "));
}

base::Error no_such_report(const std::string& name) {
  std::vector<std::string> names;
  for (const ReportKind& kind : report_kinds()) names.emplace_back(kind.name);
  return {base::ErrorCode::kNotFound,
          "there is no report '" + name + "'; there are " + base::join(names, ", ")};
}

/// The words a report of this kind is asked for with.
std::string_view needs(About about) {
  switch (about) {
    case About::kWorkshop:
      return "no month, year, subject or days";
    case About::kMonth:
      return "month=YYYY-MM and nothing else";
    case About::kYear:
      return "year=YYYY and nothing else";
    case About::kSubject:
      return "subject= and nothing else";
    case About::kDays:
      break;
  }
  return "from=YYYY-MM-DD and to=YYYY-MM-DD and nothing else";
}

base::Status<> check_words(const ReportKind& kind, const ReportWords& words) {
  const About about = kind.about;
  const bool fits = words.month.has_value() == (about == About::kMonth) &&
                    words.year.has_value() == (about == About::kYear) &&
                    words.subject.has_value() == (about == About::kSubject) &&
                    words.from.has_value() == (about == About::kDays) &&
                    words.to.has_value() == (about == About::kDays);
  if (fits) return base::Done{};
  return base::Error{base::ErrorCode::kInvalid, words.name + " needs " + std::string(needs(about))};
}

base::Result<int> read_year(const std::string& text) {
  int year = 0;
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, year);
  if (text.size() != 4 || read.ptr != end || year < base::kFirstDay.year) {
    return not_accepted("year", text, "1900 to 9999");
  }
  return year;
}

base::Result<Days> read_days(const std::string& from_text, const std::string& to_text) {
  const auto from = base::parse_date(from_text);
  if (!from) return from.error();
  const auto to = base::parse_date(to_text);
  if (!to) return to.error();
  if (*to < *from) {
    return not_accepted("to", to_text, "a day not before from=" + base::format_date(*from));
  }
  return Days{*from, *to};
}

std::string subject_forms(const ReportKind& kind) {
  std::vector<std::string> forms;
  for (const std::string_view thing_class : kind.classes) {
    forms.push_back(std::string(thing_class) + "/ and its name in the register");
    if (kind.whole_class) forms.push_back(std::string(thing_class) + " for all of them");
  }
  return base::join(forms, ", ");
}

base::Result<findings::Subject> read_subject(const ReportKind& kind, const std::string& text) {
  if (kind.classes.size() == 1 && !kind.whole_class) {
    if (text.empty()) return not_accepted("subject", text, "its name in the register");
    return findings::Subject{std::string(kind.classes.front()), text};
  }
  const std::size_t mark = text.find('/');
  findings::Subject subject{text.substr(0, mark),
                            mark == std::string::npos ? "" : text.substr(mark + 1)};
  const bool known_class = std::find(kind.classes.begin(), kind.classes.end(),
                                     subject.thing_class) != kind.classes.end();
  const bool all = mark == std::string::npos && kind.whole_class;
  if (!known_class || (subject.id.empty() && !all)) {
    return not_accepted("subject", text, subject_forms(kind));
  }
  return subject;
}

base::Status<> read_about(const ReportKind& kind, const ReportWords& words,
                          ReportRequest& request) {
  const auto keep = [](auto result, auto& place) -> base::Status<> {
    if (!result) return result.error();
    place = *std::move(result);
    return base::Done{};
  };
  if (words.month) return keep(base::parse_month(*words.month), request.month);
  if (words.year) return keep(read_year(*words.year), request.year);
  if (words.subject) return keep(read_subject(kind, *words.subject), request.subject);
  if (words.from) return keep(read_days(*words.from, *words.to), request.days);
  return base::Done{};
}

}  // namespace

base::Result<ReportRequest> read_report_request(const ReportWords& words) {
  const ReportKind* kind = find_report_kind(words.name);
  if (kind == nullptr) return no_such_report(words.name);
  ReportRequest request;
  request.name = words.name;
  const auto format = chosen("format", words.format, kFormats);
  if (!format) return format.error();
  request.format = *format;
  const auto paper = chosen("paper", words.paper, print::kPapers);
  if (!paper) return paper.error();
  request.paper = *paper;
  const auto fits = check_words(*kind, words);
  if (!fits) return fits.error();
  const auto about = read_about(*kind, words, request);
  if (!about) return about.error();
  if (words.id) {
    const auto id = base::parse_uuid(*words.id);
    if (!id) return not_accepted("id", *words.id, "a UUID (RFC 9562)");
    request.report_id = base::format_uuid(*id);
  }
  return request;
}

std::string_view paper_code(print::Paper paper) { return print::size_of(paper).name; }

}  // namespace benchwarden::workshop
