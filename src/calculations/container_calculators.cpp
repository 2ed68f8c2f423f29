#include <cmath>

#include "calculations/calculator_groups.h"
#include "calculations/due_date.h"
#include "calculations/fill_forecast.h"
#include "calculations/reconcile.h"
#include "calculations/statistics.h"
#include "calculations/vessel.h"

namespace benchwarden::calculations {
namespace {

using quantities::Length;
using quantities::litres;
using quantities::litres_of;
using quantities::millimetres;
using quantities::Volume;

constexpr double kPercent = 100;

bool lies(const Inputs& in) { return in.code("position") == "lying"; }

Outcome<Volume> volume_at(const Inputs& in, Length height) {
  const Length diameter = millimetres(in.number("diameter_mm"));
  const Length length = millimetres(in.number("length_mm"));
  return lies(in) ? lying_volume(diameter, length, height)
                  : upright_volume(diameter, length, height);
}

Outcome<Values> vessel_volume(const Inputs& in) {
  const auto volume = volume_at(in, millimetres(in.number("height_mm")));
  if (!volume) return volume.error();
  const auto full = volume_at(in, millimetres(in.number(lies(in) ? "diameter_mm" : "length_mm")));
  if (!full) return full.error();
  return Values{{"volume_l", litres_of(*volume)},
                {"full_volume_l", litres_of(*full)},
                {"fill_percent", *volume / *full * kPercent}};
}

Outcome<Values> vessel_height(const Inputs& in) {
  const Length diameter = millimetres(in.number("diameter_mm"));
  const Length length = millimetres(in.number("length_mm"));
  const Volume volume = litres(in.number("volume_l"));
  const auto height =
      lies(in) ? lying_height(diameter, length, volume) : upright_height(diameter, length, volume);
  if (!height) return height.error();
  return Values{{"height_mm", quantities::millimetres_of(*height)}};
}

Outcome<Values> strapping(const Inputs& in) {
  const auto table = StrappingTable::make(in.list("table_height_mm"), in.list("table_volume_l"));
  if (!table) return table.error();
  const auto volume = table->volume_at(millimetres(in.number("height_mm")));
  if (!volume) return volume.error();
  return Values{{"volume_l", litres_of(*volume)}};
}

Outcome<Values> weighed(const Inputs& in) {
  const Weighing weighing{
      quantities::kilograms(in.number("gross_kg")),
      quantities::kilograms(in.number("tare_kg")),
      quantities::kilograms_per_cubic_metre(in.number("density_kg_m3")),
      quantities::kilograms(in.number("gross_uncertainty_kg")),
      quantities::kilograms(in.number("tare_uncertainty_kg")),
      quantities::kilograms_per_cubic_metre(in.number("density_uncertainty_kg_m3"))};
  const auto found = volume_by_weighing(weighing);
  if (!found) return found.error();
  return Values{{"net_kg", (weighing.gross - weighing.tare).si()},
                {"volume_l", litres_of(found->volume)},
                {"expanded_uncertainty_l", kCoverageFactor * litres_of(found->uncertainty)}};
}

std::string agreement_code(Agreement agreement) {
  switch (agreement) {
    case Agreement::kWithinUncertainty:
      return "within-uncertainty";
    case Agreement::kBeyondUncertainty:
      return "beyond-uncertainty";
    case Agreement::kCannotTell:
      break;
  }
  return "cannot-tell";
}

Outcome<Values> log_against_reading(const Inputs& in) {
  const UncertainVolume log = logged_sum(in.list("logged_l"), in.number("each_uncertainty_l"),
                                         in.number("common_uncertainty_percent") / kPercent);
  const UncertainVolume reading{litres(in.number("reading_l")),
                                litres(in.number("reading_uncertainty_l"))};
  const auto found = reconcile(log, reading, litres(in.number("difference_of_interest_l")));
  if (!found) return found.error();
  return Values{
      {"log_l", litres_of(log.volume)},
      {"log_uncertainty_l", litres_of(log.uncertainty)},
      {"difference_l", litres_of(found->difference)},
      {"coverage_factor", kCoverageFactor},
      {"expanded_uncertainty_l", litres_of(found->expanded_uncertainty)},
      {"agreement", agreement_code(found->agreement)},
      {"best_l", litres_of(found->best.volume)},
      {"best_expanded_uncertainty_l", kCoverageFactor * litres_of(found->best.uncertainty)}};
}

/// The days and, where the first day is known, the date of the whole day that `whole` makes of
/// them.
void add_day(Values& values, const std::string& name, std::optional<double> days,
             std::optional<base::CivilDate> from, double (*whole)(double)) {
  if (!days) return;
  values.push_back({name + "_days", *days});
  constexpr double kDaysMax = 36525;
  const bool near = *days >= 0 && *days < kDaysMax;  // false for what is no number as well
  if (!from || !near) return;
  const auto day = days_after(*from, static_cast<int>(whole(*days)));
  if (day) values.push_back({name + "_date", *day});
}

double day_before(double days) { return std::floor(days); }
double day_after(double days) { return std::ceil(days); }

std::string change_code(RateChange change) {
  switch (change) {
    case RateChange::kSeen:
      return "changed";
    case RateChange::kNotSeen:
      return "no-change-seen";
    case RateChange::kTooFewWeeks:
      break;
  }
  return "too-few-weeks";
}

Outcome<Values> forecast(const Inputs& in) {
  const auto found = fill_forecast(in.list("daily_l"), in.number("remaining_l"));
  if (!found) return found.error();
  const auto from = in.maybe_date("from_date");
  Values values{{"mean_l_per_day", found->rate.mean_l_per_day},
                {"sd_l_per_day", found->rate.sd_l_per_day},
                {"wander_percent_per_week", found->wander_percent_per_week},
                {"c_per_day", found->rate.c_per_day}};
  add_day(values, "book_by", found->earliest_95, from, day_before);
  add_day(values, "earliest_80", found->earliest_80, from, day_before);
  add_day(values, "median", found->median, from, day_after);
  add_day(values, "latest_80", found->latest_80, from, day_after);
  add_day(values, "latest_95", found->latest_95, from, day_after);
  values.push_back({"rate", change_code(found->rate_change)});
  return values;
}

}  // namespace

std::vector<Calculator> container_calculators() {
  constexpr double kMillimetresMax = 20000;
  constexpr double kLitresMax = 1e6;
  const InputRule position = code_input("position", {"upright", "lying"});
  const InputRule diameter = number_input("diameter_mm", 1, kMillimetresMax);
  const InputRule length = number_input("length_mm", 1, kMillimetresMax);
  const InputRule height = number_input("height_mm", 0, kMillimetresMax);
  return {
      {"vessel-volume", {position, diameter, length, height}, vessel_volume},
      {"vessel-height",
       {position, diameter, length, number_input("volume_l", 0, 10 * kLitresMax)},
       vessel_height},
      {"strapping-table",
       {list_input("table_height_mm", 0, kMillimetresMax, 2, 500),
        list_input("table_volume_l", 0, kLitresMax, 2, 500), height},
       strapping},
      {"weighed-volume",
       {number_input("gross_kg", 0, 100000), number_input("tare_kg", 0, 100000),
        number_input("density_kg_m3", 100, 3000), number_input("gross_uncertainty_kg", 0, 1000),
        number_input("tare_uncertainty_kg", 0, 1000),
        number_input("density_uncertainty_kg_m3", 0, 100)},
       weighed},
      {"log-against-reading",
       {list_input("logged_l", 0, kLitresMax, 1, 20000),
        number_input("each_uncertainty_l", 0, 1000),
        number_input("common_uncertainty_percent", 0, 50), number_input("reading_l", 0, kLitresMax),
        number_input("reading_uncertainty_l", 0, 10000),
        number_input("difference_of_interest_l", 0.001, 10000)},
       log_against_reading},
      {"fill-forecast",
       {list_input("daily_l", 0, kLitresMax, kForecastDaysMin, 4000),
        number_input("remaining_l", 0.001, kLitresMax), optional(date_input("from_date"))},
       forecast},
  };
}

}  // namespace benchwarden::calculations
