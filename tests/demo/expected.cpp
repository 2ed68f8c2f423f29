#include "demo/expected.h"

#include <algorithm>
#include <utility>

namespace benchwarden::demo {
namespace {

std::string severity_of(const findings::Finding& finding) {
  if (finding.severity == findings::Severity::kNote) return "note";
  return finding.severity == findings::Severity::kDue ? "due" : "over";
}

/// The numbers of a finding, and the day to act by.
std::string values_of(const findings::Finding& finding) {
  std::string text;
  for (const auto& [name, shown] : finding.values) {
    if (name != "measured" && name != "limit") continue;
    text += ", " + name + " " + shown.value + (shown.unit.empty() ? "" : " " + shown.unit);
  }
  return finding.due ? text + ", by " + base::format_date(*finding.due) : text;
}

std::string read_finding(base::TomlReader& reader, const Almanac& almanac) {
  std::string line = reader.text("severity") + " " + reader.text("rule") + " " +
                     reader.text("subject") + " since " +
                     base::format_rfc3339_utc(almanac.moment(reader.text("since")));
  for (const char* name : {"measured", "limit"}) {
    const auto value = reader.maybe_text(name);
    if (value) line += std::string(", ") + name + " " + *value;
  }
  const auto by = reader.maybe_text("by");
  return by ? line + ", by " + base::format_date(almanac.day(*by)) : line;
}

Expected::Passed read_passed(base::TomlReader& reader, const Almanac& almanac) {
  Expected::Passed passed{reader.text("story"), reader.text("rule"), reader.text("subject"),
                          std::nullopt, almanac.moment(reader.text("gone"))};
  if (const auto stood = reader.maybe_text("stood")) passed.stood = almanac.moment(*stood);
  return passed;
}

/// Days between which a story is one: what an absolute date brings.
bool is_of_today(base::TomlReader& reader, const Almanac& almanac) {
  const std::vector<std::string> only = reader.texts("only");
  return only.size() != 2 ||
         (almanac.day(only[0]) <= almanac.today() && almanac.today() <= almanac.day(only[1]));
}

}  // namespace

Expected read_expected(const std::string& path, const Almanac& almanac, const PersonIds& persons) {
  const base::Toml file = filled(read_toml(path), [&](const std::string& question) {
    std::string said;
    return almanac.answer(question, said) ? said : persons.at(question);
  });
  base::FileFaults faults;
  base::TomlReader reader(file, path, faults);
  Expected expected;
  for (const base::Toml* table : reader.tables("finding")) {
    base::TomlReader finding(*table, path, faults);
    expected.stories.insert(finding.text("story"));
    std::string line = read_finding(finding, almanac);
    if (is_of_today(finding, almanac)) expected.at_the_end.push_back(std::move(line));
    finding.finish();
  }
  for (const base::Toml* table : reader.tables("passed")) {
    base::TomlReader passed(*table, path, faults);
    expected.passed.push_back(read_passed(passed, almanac));
    expected.stories.insert(expected.passed.back().story);
    passed.finish();
  }
  for (const std::string& quiet : reader.texts("quiet")) expected.stories.insert(quiet);
  reader.finish();
  if (!faults.empty()) give_up(base::format_faults(faults));
  std::sort(expected.at_the_end.begin(), expected.at_the_end.end());
  return expected;
}

std::string subject_of(const findings::Finding& finding) {
  if (finding.subject.thing_class.empty()) return "workshop";
  return finding.subject.thing_class + "/" + finding.subject.id;
}

std::string line_of(const findings::Finding& finding) {
  return severity_of(finding) + " " + finding.authority.rule + " " + subject_of(finding) +
         " since " + base::format_rfc3339_utc(finding.since) + values_of(finding);
}

}  // namespace benchwarden::demo
