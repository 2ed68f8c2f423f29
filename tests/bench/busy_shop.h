#pragma once

#include <cstdint>
#include <map>
#include <string>

#include "almanac.h"
#include "diary.h"
#include "dice.h"
#include "workshop/record.h"

namespace benchwarden::bench {

/// How many entries a day of the busy shop has, about: a million in ten years.
inline constexpr int kEntriesOfADay = 384;

/// Records the days of a shop with the things of the demo's inventory and far more work: mostly
/// drains, then rags, readings, checks and inspections, and a collection at the beginning of a
/// month. A day depends on its date alone, so that books of any length end with the same days.
class BusyShop {
 public:
  struct People {
    workshop::Actor manager;
    workshop::Actor technician;
  };
  BusyShop(const workshop::Ports& ports, demo::StoryClock& clock, const demo::Almanac& almanac,
           People people, base::CivilDate last_day)
      : ports_(ports),
        clock_(clock),
        almanac_(almanac),
        people_(std::move(people)),
        last_month_(base::format_month(base::month_of(last_day))) {}

  void live(base::CivilDate day);

 private:
  [[nodiscard]] bool is_last_month() const { return month_ == last_month_; }
  void begin_month(const std::string& month);
  void hand_over(const std::string& month);
  void work(demo::Dice& dice);
  void drain(demo::Dice& dice);
  void throw_rags();
  void read_level(demo::Dice& dice);
  void check_cylinder(const std::string& cylinder);
  void inspect_tool(demo::Dice& dice);
  void look_at_container(demo::Dice& dice);
  void tell(const char* kind, const std::string& fields);

  const workshop::Ports& ports_;
  demo::StoryClock& clock_;
  const demo::Almanac& almanac_;
  People people_;
  std::map<std::string, std::int64_t> level_ml_;
  std::int64_t rags_kg_ = 0;
  std::uint64_t handfuls_ = 0;
  std::string month_;
  std::string last_month_;
  base::Instant now_;
  std::uint64_t told_ = 0;
};

}  // namespace benchwarden::bench
