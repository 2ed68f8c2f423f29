#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <string>

#include "base/clock.h"
#include "base/json.h"
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

/// A small generator whose numbers are the same on every machine (SplitMix64, public domain
/// algorithm of Steele, Lea and Flood 2014). Standard distributions are not.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}
  std::uint64_t next();
  /// A whole number between the two, both included.
  std::int64_t between(std::int64_t lowest, std::int64_t highest);

 private:
  std::uint64_t state_;
};

/// Records entries as the persons of the demo would, through the same steps as the daemon.
class Diary {
 public:
  Diary(const workshop::Ports& ports, StoryClock& clock, std::uint64_t seed);

  Dice& dice() { return dice_; }
  void meet(const std::string& name, const std::string& person, const std::string& role,
            bool competent);

  /// Says that something happened at `occurred` and is recorded at `recorded`. Ends the program
  /// with every refusal printed when the entry is not taken. Returns the entry's id.
  std::string record(base::Instant occurred, base::Instant recorded, const std::string& who,
                     const std::string& kind, base::JsonObject fields);
  std::string record(base::Instant at, const std::string& who, const std::string& kind,
                     base::JsonObject fields);
  void correct(base::Instant at, const std::string& who, const std::string& entry,
               const std::string& reason, base::JsonObject fields);
  [[nodiscard]] base::Instant local(base::CivilDate day, int hour, int minute) const;
  [[nodiscard]] std::uint64_t entries() const;

 private:
  void send(base::Instant recorded, const std::string& who, base::JsonObject submission);
  std::string next_id(base::Instant at);

  const workshop::Ports& ports_;
  StoryClock& clock_;
  Dice dice_;
  std::map<std::string, workshop::Actor> actors_;
};

}  // namespace benchwarden::demo
