#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <functional>
#include <random>

#include "calculations/fill_forecast.h"

// How often the day a container really fills lies inside the forecast's intervals, by simulation
// with invented workshops. The wanted shares are those of the acceptance: 80 % within 76 to
// 90, 95 % within 91 to 98, for a steady and a weekday workshop with 90 days of history.
namespace benchwarden::calculations {
namespace {

using Random = std::mt19937;
/// Litres that come in on a day.
using Workshop = std::function<double(Random&, int day)>;

double steady(Random& random, int) {
  const int additions = std::poisson_distribution<int>(0.8)(random);
  double litres = 0;
  for (int i = 0; i < additions; ++i) litres += std::gamma_distribution<double>(4, 0.3)(random);
  return litres;
}

double weekdays(Random& random, int day) {
  if (day % 7 >= 5) return 0;
  const int additions = std::poisson_distribution<int>(1.2)(random);
  double litres = 0;
  for (int i = 0; i < additions; ++i) {
    litres += std::lognormal_distribution<double>(-0.2, 0.6)(random);
  }
  return litres;
}

double sparse(Random& random, int) {
  const bool some = std::bernoulli_distribution(0.12)(random);
  return some ? std::lognormal_distribution<double>(1.2, 0.8)(random) : 0;
}

/// The rate wanders: each week it is that of the week before, times e to a normal number of
/// standard deviation 0.1.
class Drifting {
 public:
  double operator()(Random& random, int day) {
    if (day == 0) level_ = 0;
    if (day % 7 == 0) level_ += std::normal_distribution<double>(0, 0.1)(random);
    return steady(random, day) * std::exp(level_);
  }

 private:
  double level_ = 0;
};

struct Coverage {
  double within_80 = 0;
  double within_95 = 0;
  double before_book_by = 0;
  double warned = 0;
};

int day_it_fills(Workshop& workshop, Random& random, int from, double remaining) {
  double litres = 0;
  int day = 0;
  while (litres < remaining && day < 5000) litres += workshop(random, from + day++);
  return day;
}

Coverage simulate(Workshop workshop, int history_days, double remaining) {
  constexpr int kReplicates = 2000;
  Random random(20261125);
  Coverage coverage;
  for (int replicate = 0; replicate < kReplicates; ++replicate) {
    std::vector<double> daily;
    for (int day = 0; day < history_days; ++day) daily.push_back(workshop(random, day));
    const auto forecast = fill_forecast(daily, remaining);
    const int filled = day_it_fills(workshop, random, history_days, remaining);
    if (!forecast) continue;  // a history too thin is answered with a refusal, not with a date
    const auto inside = [&](std::optional<double> low, std::optional<double> high) {
      const bool early = low && filled < std::floor(*low);
      const bool late = high && filled > std::ceil(*high);
      return early || late ? 0.0 : 100.0 / kReplicates;
    };
    coverage.within_80 += inside(forecast->earliest_80, forecast->latest_80);
    coverage.within_95 += inside(forecast->earliest_95, forecast->latest_95);
    coverage.before_book_by +=
        filled < std::floor(*forecast->earliest_95) ? 100.0 / kReplicates : 0;
    coverage.warned += forecast->rate_changed ? 100.0 / kReplicates : 0;
  }
  return coverage;
}

Coverage measure(const char* name, const Workshop& workshop, int days, double remaining) {
  const Coverage found = simulate(workshop, days, remaining);
  std::printf(
      "coverage, %s, %d days: %.1f %% in the 80 %% interval, %.1f %% in the 95 %% interval, "
      "full before the day to book by %.1f %%, warned of a changed rate %.1f %%\n",
      name, days, found.within_80, found.within_95, found.before_book_by, found.warned);
  return found;
}

TEST(ForecastCoverage, SteadyAndWeekdayWorkshops) {
  for (const Coverage& found :
       {measure("steady", steady, 90, 60), measure("weekdays", weekdays, 90, 60)}) {
    EXPECT_GE(found.within_80, 76);
    EXPECT_LE(found.within_80, 90);
    EXPECT_GE(found.within_95, 91);
    EXPECT_LE(found.within_95, 98);
    EXPECT_LE(found.before_book_by, 8);  // what the label of the day to book by says
    EXPECT_LE(found.warned, 8);
  }
}

TEST(ForecastCoverage, SparseAndDriftingWorkshopsAsTheyAre) {
  measure("sparse", sparse, 90, 40);
  measure("sparse", sparse, 180, 40);
  measure("drifting 10 % a week", Drifting(), 90, 60);
}

}  // namespace
}  // namespace benchwarden::calculations
