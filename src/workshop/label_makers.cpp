#include <algorithm>
#include <utility>

#include "print/label_pages.h"
#include "reports/label_document.h"
#include "reports/source_words.h"
#include "rules/label_words.h"
#include "workshop/judgement.h"
#include "workshop/report_input.h"
#include "workshop/report_makers.h"

namespace benchwarden::workshop {
namespace {

/// The thing asked for, or all of its class that are in use.
std::vector<findings::Subject> subjects_for(const tallies::State& state,
                                            const findings::Subject& asked) {
  if (!asked.id.empty()) return {asked};
  std::vector<findings::Subject> subjects;
  for (const auto& [id, thing] : state.things(asked.thing_class)) {
    if (!thing.retired) subjects.push_back({asked.thing_class, id});
  }
  return subjects;
}

class LabelGatherer {
 public:
  LabelGatherer(const Ports& ports, const ReportInput& input, const rules::RuleBook& book)
      : ports_(ports), input_(input), book_(book) {}

  [[nodiscard]] std::vector<reports::LabelThing> gather(const findings::Subject& asked) const {
    const rules::Scene scene(input_.state, input_.basis.as_of, input_.basis.zone);
    const findings::Judgement said = rules::judge(book_, scene);
    const auto levels = tallies::levels(input_.state, base::Instant{input_.basis.as_of.ms + 1});
    std::vector<reports::LabelThing> things;
    for (const findings::Subject& subject : subjects_for(input_.state, asked)) {
      auto thing = reports::label_thing(input_.state, subject, input_.basis, levels);
      if (!thing) continue;
      if (subject.thing_class == "container") {
        thing->tells_start = rules::tells_start(book_, scene, subject);
        for (rules::LabelWords& words : rules::label_words(book_, scene, subject)) {
          thing->words.push_back({std::move(words.words), std::move(words.authority)});
        }
      } else {
        thing->due = next_due(said, subject);
      }
      things.push_back(*std::move(thing));
    }
    return things;
  }

 private:
  /// The first of what is due; a judgement has it in order of day.
  [[nodiscard]] std::optional<reports::NextDue> next_due(const findings::Judgement& said,
                                                         const findings::Subject& subject) const {
    const auto found =
        std::find_if(said.due.begin(), said.due.end(),
                     [&](const findings::DueItem& item) { return item.subject == subject; });
    if (found == said.due.end()) return std::nullopt;
    return reports::NextDue{
        found->day,
        sentence_of(ports_.definitions, input_.state, subject, found->says + "-due", found->values),
        reports::source_words(ports_.definitions.reports.wording, found->authority.citation,
                              found->authority.confidence),
        found->authority};
  }

  const Ports& ports_;
  const ReportInput& input_;
  const rules::RuleBook& book_;
};

base::Error nothing_to_label(const findings::Subject& asked) {
  const std::string what = asked.id.empty() ? "is no " + asked.thing_class + " in use"
                                            : "is no " + asked.thing_class + " '" + asked.id + "'";
  return {base::ErrorCode::kNotFound, "there " + what + " in the register"};
}

/// PDF and SVG show what has room; for all else it is told.
base::Status<> tell_left_out(const Ports& ports, const ReportRequest& request,
                             document::Document& document) {
  if (request.format == ReportFormat::kPdf || request.format == ReportFormat::kSvg) {
    return base::Done{};
  }
  const auto font = print::FontMetrics::read(ports.definitions.font_bytes);
  if (!font) return base::Error{base::ErrorCode::kInternal, font.error().detail};
  print::tell_left_out(document, request.paper, ports.definitions.layout, *font);
  return base::Done{};
}

}  // namespace

base::Result<MadeReport> make_label(const Ports& ports, const ReportRequest& request) {
  auto input = kinds_input(ports, {});
  if (!input) return input.error();
  const auto book = rules_in_force(ports, input->state);
  if (!book) return book.error();
  auto things = LabelGatherer(ports, *input, **book).gather(*request.subject);
  if (things.empty()) return nothing_to_label(*request.subject);
  const reports::LabelFigures figures = reports::label_figures(
      input->state, input->basis, std::move(input->forms), std::move(things));
  document::Document document = reports::label_document(figures, ports.definitions.reports);
  const auto told = tell_left_out(ports, request, document);
  if (!told) return told.error();
  base::Json json = reports::label_json(figures, document);
  return MadeReport{std::move(document), std::move(json), input->basis};
}

}  // namespace benchwarden::workshop
