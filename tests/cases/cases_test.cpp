// Plays the case files of this folder: every entry is recorded or refused as written, and what is
// said at each look is what is written, line by line.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "base/decimal.h"
#include "base/text.h"
#include "cases/case_file.h"
#include "reports/waste_month.h"
#include "tallies/facts.h"
#include "workshop/fold.h"
#include "workshop/judgement.h"
#include "workshop/report_input.h"
#include "workshop/test_workshop.h"
#include "workshop/views.h"

namespace benchwarden::cases {
namespace {

using base::write_json;
using workshop::Actor;
using workshop::real_definitions;
using workshop::TestWorkshop;

std::vector<std::filesystem::path> case_files() {
  std::vector<std::filesystem::path> files;
  for (const auto& found : std::filesystem::directory_iterator(BENCHWARDEN_TOP "/tests/cases")) {
    if (found.path().extension() == ".toml") files.push_back(found.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

std::string bytes_of(const std::filesystem::path& path) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

Actor actor(const std::string& by) {
  if (by == "technician") return workshop::kTechnician;
  if (by == "technician-without-pin") return {"p3", "technician", false};
  if (by == "inspector") return workshop::kInspector;
  if (by == "program") return {"daemon", "daemon", true};
  return by == "other-manager" ? workshop::kOtherManager : workshop::kManager;
}

workshop::Sender sender(const CaseEntry& entry) {
  workshop::Sender sent;
  if (!entry.device.empty()) sent.device = entry.device;
  if (entry.by != "nobody") sent.signed_in = actor(entry.by);
  return sent;
}

std::string subject_text(const findings::Subject& subject) {
  return subject.thing_class.empty() ? "workshop" : subject.thing_class + "/" + subject.id;
}

std::string severity_text(findings::Severity severity) {
  if (severity == findings::Severity::kNote) return "note";
  return severity == findings::Severity::kDue ? "due" : "over";
}

/// Amounts are shown with spaces that do not break; a case is written with plain ones.
std::string with_plain_spaces(std::string text) {
  for (const std::string space : {"\u00A0", "\u202F"}) {
    for (auto at = text.find(space); at != std::string::npos; at = text.find(space, at)) {
      text.replace(at, space.size(), " ");
    }
  }
  return text;
}

/// The book of one case, while it is written and looked at.
class Played {
 public:
  explicit Played(const CaseFile& played)
      : case_(played), workshop_(TestWorkshop::Register::kEmpty) {}

  void run() {
    for (const auto& step : case_.steps) {
      std::visit([this](const auto& one) { play(one); }, step);
    }
  }

 private:
  [[nodiscard]] std::string place(int line) const {
    return case_.file + ":" + std::to_string(line) + ": ";
  }

  /// A look sees what is written above it, so time may not run back from there.
  void set_clock(const std::string& to, int line) {
    EXPECT_LE(now_, workshop::at(to)) << place(line) << to << " lies before what stands above it";
    now_ = workshop::at(to);
    workshop_.clock.set(now_);
  }

  [[nodiscard]] workshop::Told told_by(const CaseEntry& entry) {
    if (!entry.raw.empty()) return {"", workshop::parsed(entry.raw)};
    std::string more;
    if (!entry.confirmed.empty()) more += ",\"confirmed\":" + write_json(entry.confirmed);
    if (!entry.person.empty()) more += ",\"person\":" + write_json(entry.person);
    if (!entry.corrects.empty()) {
      more += ",\"corrects\":" + write_json(ids_[entry.corrects]) +
              ",\"reason\":" + write_json(entry.reason);
    }
    const std::string kind = entry.corrects.empty() ? entry.kind : "correction";
    return workshop::tell(kind, write_json(entry.fields), entry.occurred_at, more);
  }

  void play(const CaseEntry& entry) {
    set_clock(entry.recorded_at, entry.line);
    const workshop::Told told = told_by(entry);
    if (!entry.name.empty()) ids_[entry.name] = told.id;
    const auto outcome = workshop::record(workshop_.ports(), sender(entry), told.json);
    EXPECT_EQ(workshop::faults_of(outcome), entry.refused) << place(entry.line);
    if (entry.refused.empty()) {
      SCOPED_TRACE(place(entry.line));
      recorded_.push_back(workshop::receipt_of(outcome).recorded_at);
    }
  }

  void play(const Look& look) {
    SCOPED_TRACE(place(look.line) + look.at);
    set_clock(look.at, look.line);
    // As the state is kept in step entry by entry, and as it is folded anew.
    EXPECT_EQ(workshop_.ports().live.view()->snapshot(), folded({}).snapshot());
    const auto view = viewpoint(look);
    const tallies::State state = folded(view.value_or(workshop::Viewpoint{}));
    const base::Instant moment = view ? std::min(view->as_of, now_) : now_;
    const rules::Scene scene(state, moment, workshop::zone_of(state));
    const auto said = rules::judge(workshop::rules_of(real_definitions(), case_.pack), scene);
    expect_sentences(said, state);
    compare(look.findings, lines(said.findings, [&](const auto& one) {
              return text(one, state) + (is_acknowledged(one, state) ? " (acknowledged)" : "");
            }));
    compare(look.due, lines(said.due, [&](const auto& one) { return text(one, state); }));
    compare(look.advice, lines(said.advice, [](const auto& one) {
              return one.authority.rule + " " + subject_text(one.subject);
            }));
    compare(look.retained, lines(said.retained, [](const auto& one) {
              return one.authority.rule + " entry " + std::to_string(one.entry) + " until " +
                     base::format_date(one.until);
            }));
    compare(look.levels, levels(view));
    if (look.month) compare(look.month->lines, totals(look.month->month));
  }

  /// From where a look sees the book; none: as it is now.
  [[nodiscard]] std::optional<workshop::Viewpoint> viewpoint(const Look& look) const {
    if (look.as_of.empty() && look.known.empty()) return std::nullopt;
    workshop::Viewpoint view;
    if (!look.as_of.empty()) view.as_of = workshop::at(look.as_of);
    if (look.known.empty()) return view;
    const base::Instant known = workshop::at(look.known);
    view.known_at = static_cast<std::uint64_t>(
        std::count_if(recorded_.begin(), recorded_.end(),
                      [&](base::Instant recorded) { return recorded <= known; }));
    return view;
  }

  [[nodiscard]] tallies::State folded(const workshop::Viewpoint& view) const {
    auto state = workshop::refold(workshop_.ports().book, real_definitions().catalog, view);
    if (!state) ADD_FAILURE() << state.error().detail;
    return *std::move(state);
  }

  template <class T, class Text>
  [[nodiscard]] std::vector<std::string> lines(const std::vector<T>& all, const Text& text) const {
    std::vector<std::string> found;
    for (const T& one : all) {
      const bool wanted = case_.rules.empty() || std::find(case_.rules.begin(), case_.rules.end(),
                                                           one.authority.rule) != case_.rules.end();
      if (wanted) found.push_back(text(one));
    }
    return found;
  }

  static bool is_acknowledged(const findings::Finding& one, const tallies::State& state) {
    const auto& told = state.records("", "finding-acknowledged");
    return std::any_of(told.begin(), told.end(), [&](const tallies::Record& record) {
      return tallies::word(record.fields(), "finding") == findings::key_of(one) && !record.struck;
    });
  }

  static std::string text(const findings::Finding& one, const tallies::State& state) {
    return severity_text(one.severity) + " " + one.authority.rule + " " +
           subject_text(one.subject) + " since " + base::format_rfc3339_utc(one.since) + ": " +
           workshop::sentence_of(real_definitions(), state, one.subject, one.says, one.values);
  }
  /// Every finding and every due item has a sentence, and values for all that it names; a calendar
  /// tells due items apart by rule, subject and which, an acknowledgement findings by their keys.
  static void expect_sentences(const findings::Judgement& said, const tallies::State& state) {
    const auto complete = [&](const auto& one, const std::string& says) {
      EXPECT_TRUE(real_definitions().finding_wording.has(says)) << says;
      EXPECT_THAT(workshop::sentence_of(real_definitions(), state, one.subject, says, one.values),
                  ::testing::Not(::testing::ContainsRegex("[{}]")));
    };
    std::set<std::string> names;
    for (const findings::Finding& one : said.findings) {
      complete(one, one.says);
      EXPECT_TRUE(names.insert(findings::key_of(one)).second) << "twice: " << key_of(one);
    }
    names.clear();
    for (const findings::DueItem& one : said.due) {
      complete(one, one.says + "-due");
      std::string name = one.authority.rule + " " + subject_text(one.subject);
      for (const auto& [key, shown] : one.values) name += key == "which" ? " " + shown.value : "";
      EXPECT_TRUE(names.insert(name).second) << "twice: " << name;
    }
  }
  static std::string text(const findings::DueItem& one, const tallies::State&) {
    return base::format_date(one.day) + " " + one.authority.rule + " " + subject_text(one.subject);
  }

  [[nodiscard]] std::vector<std::string> levels(
      const std::optional<workshop::Viewpoint>& view) const {
    std::vector<std::string> found;
    const auto shown = workshop::show_levels(workshop_.ports(), view);
    for (const base::Json& level : *shown->find("levels")->array()) {
      const base::Json* volume = level.find("volume_ml");
      const base::Json* mass = level.find("mass_kg");
      std::string line = *level.find("container")->string();
      if (volume != nullptr && !volume->is_null()) line += " " + write_json(*volume) + " mL";
      if (mass != nullptr && !mass->is_null()) line += " " + write_json(*mass) + " kg";
      found.push_back(line);
    }
    return found;
  }

  /// One line a stream: what arose, was collected and stands at the end, with masses where known.
  [[nodiscard]] std::vector<std::string> totals(const std::string& month) const {
    const auto input = workshop::waste_month_input(workshop_.ports(), *base::parse_month(month));
    if (!input) return {input.error().detail};
    const auto figures =
        reports::make_waste_month({input->state, *base::parse_month(month), input->basis,
                                   input->entries, input->names, input->forms});
    std::vector<std::string> found;
    for (const reports::StreamFigures& stream : figures.streams) {
      found.push_back(stream.facts.id + ": " + amount(stream, stream.arisen, stream.arisen_mass) +
                      " arisen, " + amount(stream, stream.collected, stream.collected_mass) +
                      " collected, " + amount(stream, stream.standing, stream.standing_mass) +
                      " standing");
    }
    return found;
  }
  static std::string amount(const reports::StreamFigures& stream, std::int64_t amount,
                            const std::optional<std::int64_t>& mass) {
    const auto grams = [](std::int64_t milligrams) {
      return base::format_decimal(base::Decimal{milligrams / 1000}) + " kg";
    };
    if (stream.facts.counted_by == tallies::CountedBy::kMass) return grams(amount);
    const std::string volume = base::format_decimal(base::Decimal{amount}) + " mL";
    return mass ? volume + " (" + grams(*mass) + ")" : volume;
  }

  static void compare(const std::optional<std::vector<std::string>>& expected,
                      const std::vector<std::string>& said) {
    if (!expected) return;
    EXPECT_EQ(base::join(*expected, "\n"), with_plain_spaces(base::join(said, "\n")));
  }

  const CaseFile& case_;
  TestWorkshop workshop_;
  base::Instant now_{INT64_MIN};
  std::vector<base::Instant> recorded_;  ///< when each entry of the book was
  std::map<std::string, std::string> ids_;
};

class Cases : public ::testing::TestWithParam<std::filesystem::path> {};

TEST_P(Cases, AreAsWritten) {
  const auto read = read_case(bytes_of(GetParam()), "tests/cases/" + GetParam().filename().string(),
                              real_definitions().catalog);
  ASSERT_TRUE(read.ok()) << base::format_faults(read.error());
  EXPECT_FALSE(read->steps.empty());
  Played(*read).run();
}

INSTANTIATE_TEST_SUITE_P(Files, Cases, ::testing::ValuesIn(case_files()), [](const auto& file) {
  std::string name = file.param.stem().string();
  std::replace_if(
      name.begin(), name.end(), [](char sign) { return std::isalnum(sign) == 0; }, '_');
  return name;
});

}  // namespace
}  // namespace benchwarden::cases
