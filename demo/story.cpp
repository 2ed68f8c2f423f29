#include "story.h"

#include <array>
#include <chrono>
#include <utility>

namespace benchwarden::demo {
namespace {

using base::CivilDate;
using base::Decimal;
using base::Instant;
using base::Json;
using base::JsonArray;
using base::JsonObject;

constexpr int kStoryDays = 425;
constexpr std::int64_t kLitre = 1'000;  // in millilitres

bool is_sunday_or_saturday(CivilDate day) {
  const std::chrono::weekday weekday{std::chrono::sys_days{
      std::chrono::year{day.year} / std::chrono::month{static_cast<unsigned>(day.month)} /
      std::chrono::day{static_cast<unsigned>(day.day)}}};
  return weekday == std::chrono::Saturday || weekday == std::chrono::Sunday;
}

int iso_weekday(CivilDate day) {
  return static_cast<int>(std::chrono::weekday{
      std::chrono::sys_days{
          std::chrono::year{day.year} / std::chrono::month{static_cast<unsigned>(day.month)} /
          std::chrono::day{static_cast<unsigned>(
              day.day)}}}.iso_encoding());
}

/// The workshop from day to day. Amounts are what really stands in the containers; where the book
/// is to differ from it, the story says so.
class Story {
 public:
  Story(Diary& diary, CivilDate today, Instant now)
      : diary_(diary), dice_(diary.dice()), today_(today), now_(now) {}

  void tell() {
    const CivilDate first = base::add_days(today_, -kStoryDays);
    for (int n = 0; n <= kStoryDays; ++n) {
      day_ = base::add_days(first, n);
      days_left_ = kStoryDays - n;
      if (!is_sunday_or_saturday(day_)) working_day();
    }
  }

 private:
  [[nodiscard]] Instant at(int hour, int minute) const { return diary_.local(day_, hour, minute); }
  [[nodiscard]] bool is_past(int hour, int minute) const {
    return at(hour, minute).ms + 120'000 < now_.ms;
  }

  void working_day() {
    morning();
    for (int hour = 9; hour < 17; ++hour) {
      if (hour == 12) continue;
      if (dice_.between(1, 100) <= 75) drain(hour);
    }
    if (iso_weekday(day_) == 3) rags_into_drum();
    if (iso_weekday(day_) == 5) empty_bench_drum();
    if (day_.day <= 7 && iso_weekday(day_) == 1) monthly();
    collections();
    closing_time();
  }

  void morning() {
    if (iso_weekday(day_) == 1 && is_past(8, 10)) cylinder_checks();
  }

  // Story: from 60 days ago regulator R2 on N1 leaks, 0.6 bar a day beyond what is charged.
  void cylinder_checks() {
    const std::int64_t used = dice_.between(1'500, 2'600);
    const std::int64_t leaked = days_left_ < 60 ? 7 * 600 : 0;
    n1_thousandths_bar_ -= used + leaked;
    n2_thousandths_bar_ -= dice_.between(300, 700);
    if (n1_thousandths_bar_ < 30'000) n1_thousandths_bar_ = 198'000;  // exchanged for a full one
    check("n1", n1_thousandths_bar_, 10);
    check("n2", n2_thousandths_bar_, 14);
  }
  void check(const std::string& cylinder, std::int64_t thousandths_bar, int minute) {
    // A needle is read to half a bar.
    const std::int64_t read = (thousandths_bar + 250) / 500 * 500;
    diary_.record(at(8, minute), "Bench B", "cylinder-check",
                  {{"cylinder", cylinder},
                   {"gauge_pressure_bar", Decimal{read}},
                   {"ambient_temperature_c", Decimal{1000 * dice_.between(16, 23)}},
                   {"outlet_gauge_pressure_bar", Decimal{28'000}},
                   {"leak_test", "passed"},
                   {"secured", "yes"},
                   {"valve_protection", "regulator-fitted"},
                   {"label_legible", "yes"},
                   {"ventilation_state", "running"},
                   {"oxygen_alarm", "working"}});
  }

  void drain(int hour) {
    const int minute = static_cast<int>(dice_.between(0, 55));
    if (!is_past(hour, minute)) return;
    static constexpr std::array<std::int64_t, 6> kTypicalMl = {62, 95, 140, 180, 240, 310};
    const std::int64_t volume_ml =
        kTypicalMl.at(static_cast<std::size_t>(dice_.between(0, 5))) + dice_.between(-5, 5);
    const std::string who = dice_.between(1, 2) == 1 ? "Bench A" : "Bench B";
    JsonObject fields{{"container", "w2"},    {"volume_ml", volume_ml}, {"fluid", "mineral-oil"},
                      {"measured_by", "jug"}, {"unit_count", 1},        {"contamination", "none"}};
    w2_ml_ += volume_ml;
    const Instant when = at(hour, minute);
    if (days_left_ == 40 && hour == 10) {
      // Story: one digit too many, noticed on the same day.
      fields[1].second = volume_ml * 10;
      const std::string id = diary_.record(when, who, "oil-drained", std::move(fields));
      diary_.correct(at(16, 50), who, id, "One nought too many typed",
                     {{"action", "corrected"}, {"volume_ml", volume_ml}});
      return;
    }
    diary_.record(when, who, "oil-drained", std::move(fields));
  }

  void rags_into_drum() {
    if (!is_past(16, 40)) return;
    const std::int64_t mass_g = dice_.between(900, 2'100);
    d1_g_ += mass_g;
    diary_.record(at(16, 40), "Bench B", "rag-bin",
                  {{"container", "b1"},
                   {"bin_act", "emptied"},
                   {"emptied_into", "d1"},
                   {"mass_kg", Decimal{mass_g}}});
  }

  void empty_bench_drum() {
    if (w2_ml_ < 15 * kLitre || !is_past(16, 30)) return;
    diary_.record(at(16, 30), "Bench A", "transfer",
                  {{"from_container", "w2"}, {"to_container", "w1"}});
    w1_ml_ += w2_ml_;
    w2_ml_ = 0;
  }

  void monthly() {
    if (!is_past(9, 50)) return;
    // Story: at the last but one reading nine litres more stand in W1 than the log says.
    if (days_left_ < 60 && !poured_unlogged_) {
      w1_ml_ += 9 * kLitre;
      poured_unlogged_ = true;
    }
    const std::int64_t dipped_ml = w1_ml_ + dice_.between(-400, 400);
    diary_.record(at(9, 30), "Office", "level-reading",
                  {{"container", "w1"},
                   {"reading_method", "dip"},
                   {"volume_ml", dipped_ml < 0 ? 0 : dipped_ml}});
    inspect_tools();
    inspect_gauges();
  }

  void inspect_tools() {
    int minute = 35;
    for (const char* tool : {"h1", "h2", "h3", "c1", "c2"}) {
      const bool charger = tool[0] == 'c';
      JsonObject fields{{"inspected_class", "tool"},     {"tool", tool},
                        {"body_condition", "passed"},    {"seals_condition", "passed"},
                        {"marking_condition", "passed"}, {"hose_condition", "passed"}};
      fields.emplace_back("needle_condition", charger ? "passed" : "not-applicable");
      fields.emplace_back("result", "in-service");
      diary_.record(at(9, minute++), "Office", "tool-inspection", std::move(fields));
    }
  }

  // Story: gauge G2 reads a little higher every month.
  void inspect_gauges() {
    g2_error_thousandths_ += 35;
    inspect_gauge("g1", 20, 44);
    inspect_gauge("g2", g2_error_thousandths_, 46);
  }
  void inspect_gauge(const std::string& gauge, std::int64_t error_thousandths, int minute) {
    JsonArray points;
    for (const std::int64_t nominal : {0, 10'000, 20'000, 30'000, 40'000}) {
      const std::int64_t found = nominal + error_thousandths * nominal / 40'000;
      points.emplace_back(JsonObject{{"nominal_bar", Decimal{nominal}},
                                     {"as_found_bar", Decimal{found}},
                                     {"as_left_bar", Decimal{found}}});
    }
    diary_.record(at(9, minute), "Office", "tool-inspection",
                  {{"inspected_class", "gauge"},
                   {"gauge", gauge},
                   {"body_condition", "passed"},
                   {"marking_condition", "passed"},
                   {"points", std::move(points)},
                   {"result", "in-service"}});
  }

  void collections() {
    if (w1_ml_ > 110 * kLitre && days_left_ > 30 && is_past(14, 10)) collect_oil();
    // Story: a drain of the last day of the month is remembered only in the new month.
    if (day_.day <= 3 && days_left_ < 45 && !late_told_ && is_past(9, 20)) tell_late();
  }
  void collect_oil() {
    JsonArray loads{
        JsonObject{{"container", "w1"}, {"volume_ml", w1_ml_}, {"emptied", "yes"}},
        JsonObject{{"container", "d1"}, {"mass_kg", Decimal{d1_g_}}, {"emptied", "yes"}}};
    collect(std::move(loads));
    diary_.record(at(14, 5), "Office", "container-change",
                  {{"container", "w1"}, {"container_act", "swapped"}, {"location", "Store"}});
    w1_ml_ = 0;
    d1_g_ = 0;
  }
  void collect(JsonArray loads) {
    const std::string collection = "c" + std::to_string(++collections_);
    const std::string document = "SDW4/" + std::to_string(10'000 + collections_);
    diary_.record(at(14, 0), "Office", "collection",
                  {{"collection", collection},
                   {"stage", "taken"},
                   {"carrier", "tideline"},
                   {"document_number", document},
                   {"loads", std::move(loads)}});
    // Story: the document of the last collection has not come back.
    if (days_left_ < 120) return;
    diary_.record(at(16, 55), "Office", "collection",
                  {{"collection", collection},
                   {"stage", "document-returned"},
                   {"document_number", document}});
  }
  void tell_late() {
    late_told_ = true;
    const CivilDate last_day = base::add_days(base::first_day(base::month_of(day_)), -1);
    diary_.record(diary_.local(last_day, 16, 45), at(9, 15), "Bench B", "oil-drained",
                  {{"container", "w2"},
                   {"volume_ml", 85},
                   {"fluid", "mineral-oil"},
                   {"contamination", "none"},
                   {"note", "Forgotten on Friday"}});
    w2_ml_ += 85;
  }

  // Story: five days ago the bin was left full overnight and nobody looked at it.
  void closing_time() {
    const bool forgotten = days_left_ >= 5 && days_left_ <= 7 && !bin_left_;
    if (forgotten) bin_left_ = true;
    if (forgotten || !is_past(17, 30)) return;
    diary_.record(at(17, 30), "Bench A", "rag-bin",
                  {{"container", "b1"},
                   {"bin_act", "checked-at-close"},
                   {"fill_percent", dice_.between(1, 6) * 10},
                   {"lid_shut", "yes"}});
  }

  Diary& diary_;
  Dice& dice_;
  CivilDate today_;
  Instant now_;
  CivilDate day_;
  int days_left_ = 0;
  std::int64_t w1_ml_ = 0;
  std::int64_t w2_ml_ = 0;
  std::int64_t d1_g_ = 0;
  std::int64_t n1_thousandths_bar_ = 196'000;
  std::int64_t n2_thousandths_bar_ = 187'000;
  std::int64_t g2_error_thousandths_ = 20;
  int collections_ = 0;
  bool poured_unlogged_ = false;
  bool late_told_ = false;
  bool bin_left_ = false;
};

}  // namespace

void tell_story(Diary& diary, CivilDate today, Instant now) { Story(diary, today, now).tell(); }

}  // namespace benchwarden::demo
