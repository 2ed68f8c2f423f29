#include "reports/wording.h"

#include <cassert>
#include <set>

#include "base/text.h"
#include "reports/known_sections.h"

namespace benchwarden::reports {
namespace {

constexpr std::string_view kFile = "reports/wording/en.toml";

struct Sentence {
  std::string text;
  int line = 0;
};
using Sentences = std::map<std::string, Sentence>;

/// Tables within tables become "page.page_of".
void flatten(const base::Toml& table, const std::string& prefix, Sentences& sentences,
             base::FileFaults& faults) {
  for (const auto& [name, value] : table.members) {
    const std::string full = prefix.empty() ? name : prefix + "." + name;
    if (value.type == base::Toml::Type::kTable) {
      flatten(value, full, sentences, faults);
    } else if (value.type == base::Toml::Type::kText) {
      sentences.emplace(full, Sentence{value.text, value.line});
    } else {
      faults.push_back({std::string(kFile), value.line, "'" + full + "' must be text"});
    }
  }
}

std::set<std::string> words_of(std::string_view spaced) {
  std::set<std::string> words;
  while (!spaced.empty()) {
    const std::size_t end = spaced.find(' ');
    words.emplace(spaced.substr(0, end));
    spaced = end == std::string_view::npos ? std::string_view() : spaced.substr(end + 1);
  }
  return words;
}

std::set<std::string> placeholders_of(std::string_view text) {
  std::set<std::string> names;
  std::size_t open = text.find('{');
  while (open != std::string_view::npos) {
    const std::size_t close = text.find('}', open);
    if (close == std::string_view::npos) break;
    names.emplace(text.substr(open + 1, close - open - 1));
    open = text.find('{', close);
  }
  return names;
}

std::string two_digits(int number) { return (number < 10 ? "0" : "") + std::to_string(number); }

/// Name -> placeholders of everything the code may ask for.
std::map<std::string, std::set<std::string>> required_sentences() {
  std::map<std::string, std::set<std::string>> required;
  for (const WordingKey& key : kWordingKeys) {
    required.emplace(key.name, words_of(key.placeholders));
  }
  for (const KnownColumn& column : known_columns()) {
    required.emplace("column." + std::string(column.name), std::set<std::string>());
  }
  for (const KnownSection& section : known_sections()) {
    required.emplace("section." + std::string(section.report) + "." + std::string(section.id),
                     std::set<std::string>());
  }
  for (int month = 1; month <= 12; ++month) {
    required.emplace("month." + two_digits(month), std::set<std::string>());
  }
  return required;
}

void check(const std::string& name, const std::set<std::string>& placeholders,
           const Sentences& sentences, base::FileFaults& faults) {
  const auto found = sentences.find(name);
  if (found == sentences.end()) {
    faults.push_back({std::string(kFile), 0, "the sentence '" + name + "' is missing"});
  } else if (found->second.text.empty()) {
    faults.push_back({std::string(kFile), found->second.line, "'" + name + "' is empty"});
  } else if (placeholders_of(found->second.text) != placeholders) {
    std::vector<std::string> wanted;
    for (const std::string& word : placeholders) wanted.push_back("{" + word + "}");
    faults.push_back({std::string(kFile), found->second.line,
                      "'" + name + "' must hold " +
                          (wanted.empty() ? "no placeholder" : base::join(wanted, " "))});
  }
}

}  // namespace

base::Result<ReportWording, base::FileFaults> ReportWording::load(const base::DataFiles& files) {
  base::FileFaults faults;
  Sentences sentences;
  for (const base::DataFile& file : files) {
    if (file.path != kFile) continue;
    const auto parsed = base::parse_toml(file.bytes, file.path);
    if (!parsed) return parsed.error();
    flatten(*parsed, "", sentences, faults);
  }
  const auto required = required_sentences();
  for (const auto& [name, placeholders] : required) check(name, placeholders, sentences, faults);
  ReportWording wording;
  for (auto& [name, sentence] : sentences) {
    if (!required.contains(name)) {
      faults.push_back({std::string(kFile), sentence.line, "'" + name + "' is not known here"});
    }
    wording.texts_.emplace(name, std::move(sentence.text));
  }
  if (!faults.empty()) return faults;
  return wording;
}

const std::string& ReportWording::at(const std::string& name) const {
  const auto found = texts_.find(name);
  assert(found != texts_.end());
  return found->second;
}

const std::string& ReportWording::text(Key key) const { return at(std::string(key.name())); }

std::string ReportWording::text(Key key, const Values& values) const {
  return base::fill(text(key), values);
}

const std::string& ReportWording::section(std::string_view report, std::string_view id) const {
  return at("section." + std::string(report) + "." + std::string(id));
}

const std::string& ReportWording::column(std::string_view name) const {
  return at("column." + std::string(name));
}

std::string ReportWording::month(base::CivilMonth month) const {
  return text("word.month_and_year", {{"month", at("month." + two_digits(month.month))},
                                      {"year", std::to_string(month.year)}});
}

const std::string& ReportWording::yes_no(bool value) const {
  return value ? text("word.yes") : text("word.no");
}

}  // namespace benchwarden::reports
