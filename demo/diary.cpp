#include "diary.h"

#include <cstdlib>
#include <iostream>
#include <utility>

namespace benchwarden::demo {

std::uint64_t Dice::next() {
  state_ += 0x9E3779B97F4A7C15U;
  std::uint64_t z = state_;
  z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
  z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
  return z ^ (z >> 31U);
}

std::int64_t Dice::between(std::int64_t lowest, std::int64_t highest) {
  const auto span = static_cast<std::uint64_t>(highest - lowest + 1);
  return lowest + static_cast<std::int64_t>(next() % span);
}

Diary::Diary(const workshop::Ports& ports, StoryClock& clock, std::uint64_t seed)
    : ports_(ports), clock_(clock), dice_(seed) {}

void Diary::meet(const std::string& name, const std::string& person, const std::string& role,
                 bool competent) {
  actors_[name] = {person, role, competent, true};
}

base::Instant Diary::local(base::CivilDate day, int hour, int minute) const {
  const base::Zone zone = workshop::zone_of(*ports_.live.view());
  return {zone.start_of(day).ms + (hour * 60 + minute) * std::int64_t{60'000}};
}

std::uint64_t Diary::entries() const { return ports_.book.head().size; }

std::string Diary::next_id(base::Instant at) {
  std::array<std::uint8_t, 10> random{};
  for (std::uint8_t& byte : random) byte = static_cast<std::uint8_t>(dice_.next());
  return base::format_uuid(base::make_uuid7(at, random));
}

std::string Diary::record(base::Instant occurred, base::Instant recorded, const std::string& who,
                          const std::string& kind, base::JsonObject fields) {
  const base::Zone zone = workshop::zone_of(*ports_.live.view());
  const std::string id = next_id(occurred);
  send(recorded, who,
       {{"id", id},
        {"kind", kind},
        {"occurred_at", base::format_rfc3339(zone.local(occurred))},
        {"fields", std::move(fields)}});
  return id;
}

std::string Diary::record(base::Instant at, const std::string& who, const std::string& kind,
                          base::JsonObject fields) {
  // People tap a few seconds after they pour.
  return record(at, {at.ms + 1000 * dice_.between(4, 90)}, who, kind, std::move(fields));
}

void Diary::correct(base::Instant at, const std::string& who, const std::string& entry,
                    const std::string& reason, base::JsonObject fields) {
  const base::Zone zone = workshop::zone_of(*ports_.live.view());
  send(at, who,
       {{"id", next_id(at)},
        {"kind", "correction"},
        {"occurred_at", base::format_rfc3339(zone.local(at))},
        {"corrects", entry},
        {"reason", reason},
        {"fields", std::move(fields)}});
}

void Diary::send(base::Instant recorded, const std::string& who, base::JsonObject submission) {
  clock_.set(recorded);
  const base::Json json(std::move(submission));
  const auto outcome = workshop::record(ports_, actors_.at(who), json);
  if (std::holds_alternative<workshop::Recorded>(outcome)) return;
  std::cerr << "the demo's entry was not taken: " << base::write_json(json) << "\n";
  if (const auto* faults = std::get_if<workshop::Faults>(&outcome)) {
    for (const workshop::Fault& fault : *faults) {
      std::cerr << "  " << fault.pointer << ": " << fault.sentence << "\n";
    }
  } else {
    std::cerr << "  " << std::get<base::Error>(outcome).detail << "\n";
  }
  std::exit(1);  // NOLINT(concurrency-mt-unsafe): one thread, and the demo is useless half made
}

}  // namespace benchwarden::demo
