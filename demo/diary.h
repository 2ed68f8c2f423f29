#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "almanac.h"
#include "base/clock.h"
#include "base/json.h"
#include "dice.h"
#include "inventory.h"
#include "plan.h"
#include "workshop/record.h"

namespace benchwarden::demo {

/// A clock that stands where the story stands.
class StoryClock : public base::Clock {
 public:
  [[nodiscard]] base::Instant now() const override { return now_; }
  void set(base::Instant now) { now_ = now; }

 private:
  base::Instant now_;
};

/// Records entries as the persons of the demo would, through the same steps as the daemon. Ends the
/// program with every refusal printed when an entry is not taken.
///
/// In their fields, {w1 level} is what the book says stands in container w1 (millilitres or
/// kilograms), {w1 level + off} as much more, {n1 bar T} what the needle on cylinder n1 shows at
/// T °C, {Bench A} a person's id, {oil * 0.87 + rest} a sum of products of shared values and
/// numbers, {day after 9} nine days after the entry, {last month} the month before it,
/// {figures of last month} their digest and {book size} what they stand on; other days are as in
/// the almanac.
class Diary {
 public:
  Diary(const workshop::Ports& ports, StoryClock& clock, const Almanac& almanac, Dice& dice);

  void meet(const Person& person, const std::string& id);
  [[nodiscard]] const PersonIds& persons() const { return persons_; }
  /// How much is in a cylinder, in bar at 20 °C; it falls with the gas that is logged as used, and
  /// `spent` percent of it besides, in hoses and blowing off.
  void fill(const std::string& cylinder, double litres, double bar, double spent);

  void enter(base::Instant at, const std::string& who, base::JsonObject fields,
             const base::JsonArray& confirmed);
  void record(const Planned& planned);

 private:
  struct Content {
    double litres = 0;
    double bar = 0;
    double spent = 0;
  };
  [[nodiscard]] base::Toml fill_in(const base::Toml& fields, Occasion& occasion) const;
  [[nodiscard]] std::string answer(const std::string& question, Occasion& occasion) const;
  [[nodiscard]] std::string day_after(int days) const;
  [[nodiscard]] base::CivilMonth last_month() const;
  [[nodiscard]] std::string figures_of_last_month() const;
  [[nodiscard]] std::string needle(const std::string& cylinder, double celsius) const;
  [[nodiscard]] double level(const std::string& container) const;
  /// "a * 0.87 + b", of shared values and numbers.
  [[nodiscard]] double sum(const std::vector<std::string>& words, Occasion& occasion) const;
  [[nodiscard]] double factor(const std::string& word, Occasion& occasion) const;
  void use_gas(const base::Toml& fields);
  std::string next_id(base::Instant at);
  void send(base::Instant recorded, const std::string& who, const base::Json& submission);

  const workshop::Ports& ports_;
  StoryClock& clock_;
  const Almanac& almanac_;
  Dice& dice_;
  PersonIds persons_;
  std::map<std::string, workshop::Actor> actors_;
  std::map<std::string, Content> cylinders_;
  std::map<std::string, std::string> named_;  ///< ids of entries that are corrected later
};

}  // namespace benchwarden::demo
