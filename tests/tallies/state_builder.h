#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "tallies/levels.h"
#include "tallies/state.h"

// A small language for the tests of this folder: `book.enter(day(3), {adds("w1", ml(250))})`.

namespace benchwarden::tallies {

base::Instant day(int number);   ///< midnight of that day
base::Instant hour(int number);  ///< that hour of day 0
base::Instant at(const std::string& rfc3339);
entries::Amount ml(std::int64_t count);  ///< a volume
entries::Amount kg(std::int64_t count);  ///< a mass
inline const entries::Amount kAll{};     ///< a move without an amount

inline const base::Instant kStart = day(0);    ///< of most books
inline const base::Instant kEnd = day(1'000);  ///< after them

inline constexpr std::int64_t kMl = 1'000;      ///< in µL
inline constexpr std::int64_t kKg = 1'000'000;  ///< in mg

entries::Effect adds(const std::string& container, entries::Amount amount);
entries::Effect moves(const std::string& from, const std::string& to, entries::Amount amount);
entries::Effect takes(const std::string& collection, std::vector<entries::TakenLoad> loads);
entries::Effect reads(const std::string& container, entries::Amount amount);
entries::Effect handles(const std::string& container, entries::ContainerAct act);
entries::Effect checks(const std::string& tool, entries::Outcome outcome);

entries::Field text_field(const std::string& name, const std::string& text);
entries::Field code_field(const std::string& name, const std::string& code);
entries::Field id_field(const std::string& name, const std::string& id);
entries::Field number_field(const std::string& name, std::int64_t thousandths,
                            const std::string& unit);
entries::Effect enters(const std::string& thing_class, const std::string& id,
                       entries::Fields attributes);
entries::Effect alters(const std::string& thing_class, const std::string& id,
                       entries::Fields attributes);
entries::Effect retires(const std::string& thing_class, const std::string& id);

/// The register of most tests: `oil` by volume at 900 kg/m³, `mix` by volume without a density,
/// `rags` by mass; labelled containers w1, w2 (oil), m1 (mix), drum (rags); working containers
/// can (oil) and bin (rags).
entries::Effects usual_register();

/// A book being written, with the state that follows it.
class BookUnderTest {
 public:
  BookUnderTest() = default;
  explicit BookUnderTest(const entries::Effects& first) { enter(day(0), first); }

  /// Recorded when it occurred, by a verified person. The number of the entry.
  std::uint64_t enter(base::Instant at, entries::Effects effects);
  std::uint64_t enter(Posting posting);  ///< numbered by the book
  std::uint64_t correct(std::uint64_t target, entries::Effects effects);
  std::uint64_t strike(std::uint64_t target, SentBy sent_by = {});

  [[nodiscard]] const State& state() const { return state_; }
  [[nodiscard]] const Timeline& at(const std::string& container) const {
    return state_.timeline(container);
  }

 private:
  std::uint64_t amend(Amendment amendment);
  State state_;
  std::map<std::uint64_t, Posting> standing_;
};

}  // namespace benchwarden::tallies
