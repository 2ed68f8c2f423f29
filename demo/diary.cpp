#include "diary.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <utility>
#include <vector>

#include "reports/month_closing.h"
#include "tallies/levels.h"
#include "workshop/filed_value.h"
#include "workshop/month_close.h"

namespace benchwarden::demo {
namespace {

/// As a field takes it: three places at most.
std::string as_text(double value) {
  return base::format_decimal(base::Decimal{std::llround(value * 1000)});
}

double number(const base::Toml& fields, const std::string& name) {
  const auto field = fields.members.find(name);
  if (field == fields.members.end()) return 0;
  const base::Toml& value = field->second;
  return value.type == base::Toml::Type::kInteger ? static_cast<double>(value.integer)
                                                  : std::strtod(value.text.c_str(), nullptr);
}

}  // namespace

Diary::Diary(const workshop::Ports& ports, StoryClock& clock, const Almanac& almanac, Dice& dice)
    : ports_(ports), clock_(clock), almanac_(almanac), dice_(dice) {}

void Diary::meet(const Person& person, const std::string& id) {
  persons_[person.name] = id;
  actors_[person.name] = {id, person.role, true};
}

void Diary::fill(const std::string& cylinder, double litres, double bar, double spent) {
  cylinders_[cylinder] = {litres, bar, spent};
}

std::string Diary::next_id(base::Instant at) {
  std::array<std::uint8_t, 10> random{};
  for (std::uint8_t& byte : random) byte = static_cast<std::uint8_t>(dice_.next());
  return base::format_uuid(base::make_uuid7(at, random));
}

std::string Diary::day_after(int days) const {
  return base::format_date(base::add_days(almanac_.zone().date_of(clock_.now()), days));
}

base::CivilMonth Diary::last_month() const {
  const base::CivilMonth now = almanac_.zone().month_of(clock_.now());
  return base::month_of(base::add_days(base::first_day(now), -1));
}

std::string Diary::figures_of_last_month() const {
  return reports::month_digest(workshop::sums_of(*ports_.live.view(), last_month()));
}

std::string Diary::needle(const std::string& cylinder, double celsius) const {
  const double shown = cylinders_.at(cylinder).bar * (celsius + 273.15) / 293.15;
  return as_text(std::round(shown * 2) / 2);  // it is read to half a bar
}

double Diary::level(const std::string& container) const {
  const auto state = ports_.live.view();
  for (const tallies::Level& level : tallies::levels(*state, {clock_.now().ms + 1})) {
    if (level.container != container) continue;
    const bool by_volume = level.stream.counted_by == tallies::CountedBy::kVolume;
    return static_cast<double>(level.amount) / (by_volume ? 1e3 : 1e6);
  }
  give_up("there is no container " + container);
}

double Diary::factor(const std::string& word, Occasion& occasion) const {
  const auto wanted = occasion.wanted.find(word);
  if (wanted != occasion.wanted.end()) {
    const base::Toml let = wanted->second;
    occasion.wanted.erase(wanted);
    occasion.known[word] = fill_in(let, occasion).text;
  }
  const auto known = occasion.known.find(word);
  const std::string& text = known == occasion.known.end() ? word : known->second;
  char* end = nullptr;
  const double value = std::strtod(text.c_str(), &end);
  if (text.empty() || *end != '\0') give_up("'" + text + "' is no number");
  return value;
}

std::string Diary::answer(const std::string& question, Occasion& occasion) const {
  std::string said;
  const std::vector<std::string> words = words_of(question);
  if (words.size() == 3 && words[1] == "after") return day_after(whole_number(words[2]));
  if (almanac_.answer(question, said)) return said;
  if (question == "last month") return base::format_month(last_month());
  if (question == "figures of last month") return figures_of_last_month();
  if (question == "book size") return std::to_string(ports_.live.view()->size());
  const auto person = persons_.find(question);
  if (person != persons_.end()) return person->second;
  if (question == "it" || question == "count") return occasion.known[question];
  if (words.size() >= 2 && words[1] == "level") {
    const double off = words.size() == 4 ? factor(words[3], occasion) : 0;
    return as_text(std::max(0.0, level(words[0] == "it" ? occasion.known["it"] : words[0]) + off));
  }
  if (words.size() == 3 && words[1] == "bar") return needle(words[0], factor(words[2], occasion));
  return as_text(sum(words, occasion));
}

double Diary::sum(const std::vector<std::string>& words, Occasion& occasion) const {
  double sum = 0;
  double product = 1;
  for (const std::string& word : words) {
    if (word == "*") continue;
    if (word == "+") {
      sum += product;
      product = 1;
    } else {
      product *= factor(word, occasion);
    }
  }
  return sum + product;
}

base::Toml Diary::fill_in(const base::Toml& fields, Occasion& occasion) const {
  return filled(fields, [&](const std::string& question) { return answer(question, occasion); });
}

void Diary::use_gas(const base::Toml& fields) {
  const auto cylinder = cylinders_.find(fields.members.at("cylinder").text);
  if (cylinder == cylinders_.end()) return;
  const double litres_bar = number(fields, "unit_count") * number(fields, "charge_pressure_bar") *
                            number(fields, "unit_gas_volume_ml") / 1000;
  Content& content = cylinder->second;
  content.bar -= litres_bar * (1 + content.spent / 100) / content.litres;
}

void Diary::enter(base::Instant at, const std::string& who, base::JsonObject fields,
                  const base::JsonArray& confirmed) {
  send(at, who,
       base::JsonObject{{"id", next_id(at)},
                        {"kind", "register-change"},
                        {"occurred_at", base::format_rfc3339(almanac_.zone().local(at))},
                        {"fields", std::move(fields)},
                        {"confirmed", confirmed}});
}

void Diary::record(const Planned& planned) {
  clock_.set(planned.recorded);
  const base::Toml filled_in = fill_in(planned.fields, *planned.occasion);
  base::JsonObject fields;
  for (const auto& [name, value] : filled_in.members) {
    fields.emplace_back(name, workshop::filed_value(value, name, ports_.definitions.catalog));
  }
  const std::string id = next_id(planned.occurred);
  if (!planned.name.empty()) named_[planned.name] = id;
  base::JsonArray confirmed;
  for (const std::string& name : planned.confirmed) confirmed.emplace_back(name);
  base::JsonObject submission{
      {"id", id},
      {"kind", planned.kind},
      {"occurred_at", base::format_rfc3339(almanac_.zone().local(planned.occurred))},
      {"fields", std::move(fields)},
      {"confirmed", std::move(confirmed)}};
  if (!planned.corrects.empty()) {
    submission.emplace_back("corrects", named_.at(planned.corrects));
    submission.emplace_back("reason", planned.reason);
  }
  send(planned.recorded, planned.who, submission);
  if (planned.kind == "gas-use") use_gas(filled_in);
}

void Diary::send(base::Instant recorded, const std::string& who, const base::Json& submission) {
  clock_.set(recorded);
  const auto outcome = workshop::record(ports_, actors_.at(who), submission);
  if (std::holds_alternative<workshop::Recorded>(outcome)) return;
  std::string why = "not taken: " + base::write_json(submission);
  if (const auto* faults = std::get_if<workshop::Faults>(&outcome)) {
    for (const workshop::Fault& fault : *faults) {
      why += "\n  " + fault.pointer + ": " + fault.sentence;
    }
  } else {
    why += "\n  " + std::get<base::Error>(outcome).detail;
  }
  give_up(why);
}

}  // namespace benchwarden::demo
