#include "rules/told.h"

#include <algorithm>
#include <utility>

#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

double plain(base::Decimal value) { return static_cast<double>(value.thousandths) / 1000; }

}  // namespace

std::vector<std::string> listed_words(std::string_view setting) {
  std::vector<std::string> words;
  std::string word;
  for (const char sign : setting) {
    if (sign == ',') {
      words.push_back(std::move(word));
      word.clear();
    } else if (sign != ' ') {
      word.push_back(sign);
    }
  }
  words.push_back(std::move(word));
  std::erase(words, "");
  return words;
}

std::vector<std::uint64_t> ends_of(std::uint64_t first, std::uint64_t last) {
  if (first == last) return {last};
  return {std::min(first, last), std::max(first, last)};
}

std::vector<std::uint64_t> ends_of(const tallies::Record& first, const tallies::Record& last) {
  return ends_of(first.seq, last.seq);
}

base::Instant holds_since(const Scene& scene, const findings::Subject& subject,
                          std::initializer_list<std::string_view> attributes) {
  const tallies::Register& under_care = scene.state().under_care();
  base::Instant since = base::kEarliest;
  for (const std::string_view attribute : attributes) {
    const auto one = under_care.holds_since(subject.thing_class, subject.id, attribute);
    if (one) since = std::max(since, *one);
  }
  return std::min(since, scene.now());
}

base::Instant held_since(const Scene& scene, const findings::Subject& subject,
                         const std::function<bool(const entries::Fields&)>& condition) {
  const tallies::Register& under_care = scene.state().under_care();
  auto moments = under_care.said_at(subject.thing_class, subject.id);
  std::sort(moments.begin(), moments.end(), std::greater<>());
  base::Instant since = scene.now();
  for (const base::Instant moment : moments) {
    if (moment > scene.now()) continue;
    const auto thing = under_care.thing_at(subject.thing_class, subject.id, moment);
    if (!thing || !condition(thing->attributes)) break;
    since = moment;
  }
  return since;
}

std::optional<double> number_of(const entries::Fields& fields, std::string_view name,
                                std::string_view unit) {
  const auto quantity = tallies::measure(fields, name, unit);
  return quantity ? std::optional(plain(quantity->value)) : std::nullopt;
}

std::optional<double> number_of(const tallies::Record& record, std::string_view name,
                                std::string_view unit) {
  const auto value = record.decimal(name, unit);
  return value ? std::optional(plain(*value)) : std::nullopt;
}

std::optional<double> number_of(const entries::Record& row, std::string_view name,
                                std::string_view unit) {
  const auto* quantity = entries::find_scalar_as<quantities::Quantity>(row, name);
  if (quantity == nullptr) return std::nullopt;
  return tallies::is_measure(*quantity, unit) ? std::optional(plain(quantity->value))
                                              : std::nullopt;
}

findings::Finding finding_of(const Rule& rule, findings::Subject subject, std::string_view says,
                             findings::Severity severity, base::Instant since) {
  findings::Finding finding;
  finding.authority = rule.authority;
  finding.subject = std::move(subject);
  finding.says = says;
  finding.severity = severity;
  finding.since = since;
  return finding;
}

std::vector<findings::Subject> told_things(const Rule& rule, const Scene& scene,
                                           std::string_view thing_class) {
  std::vector<findings::Subject> found;
  for (const auto& [id, records] : scene.state().records().of_class(thing_class)) {
    findings::Subject subject{std::string(thing_class), id};
    if (scene.applies(rule, subject)) found.push_back(std::move(subject));
  }
  return found;
}

bool is_closed(const Scene& scene, const findings::Subject& subject, const tallies::Record& asked,
               std::string_view closed_by) {
  for (const tallies::Record* closing : NewestFirst(scene, subject, {std::string(closed_by)})) {
    if (closing->at < asked.at) return false;
    if (closing->word("effective") != "no") return true;
  }
  return false;
}

std::vector<findings::Subject> subjects_of(const Rule& rule, const Scene& scene) {
  const std::string_view about = rule.setting("about");
  if (about != "workshop") return scene.subjects(rule, about);
  if (!scene.applies(rule, {})) return {};
  return {findings::Subject{}};
}

}  // namespace benchwarden::rules
