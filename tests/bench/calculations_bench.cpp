// Prints what a nitrogen state and a forecast cost, as nanoseconds and as a multiple of an ideal
// gas evaluated in the same run. It judges nothing: machines differ.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <limits>
#include <vector>

#include "calculations/fill_forecast.h"
#include "calculations/nitrogen_state.h"

namespace {

using namespace benchwarden;

double sink = 0;  // printed at the end, so that nothing is left out as unused

double density_of_ideal_gas(double kelvin, double pascals) {
  constexpr double kGasConstant = 8.314462618;
  constexpr double kMolarMass = 0.02801348;
  return pascals * kMolarMass / (kGasConstant * kelvin);
}

/// Nanoseconds a call, the best of some runs over a grid of temperatures and pressures.
template <class F>
double nanoseconds(int calls, const F& evaluate) {
  constexpr int kRuns = 15;
  double best = std::numeric_limits<double>::max();
  for (int run = 0; run < kRuns; ++run) {
    const auto start = std::chrono::steady_clock::now();
    for (int i = 0; i < calls; ++i) {
      evaluate(253.15 + 70.0 * (i % 71) / 71, 1e5 + 34e6 * (i % 97) / 97);
    }
    const std::chrono::duration<double, std::nano> took = std::chrono::steady_clock::now() - start;
    best = std::min(best, took.count() / calls);
  }
  return best;
}

std::vector<double> ninety_days() {
  std::vector<double> days;
  for (int day = 0; day < 90; ++day) days.push_back(day % 3 == 0 ? 0 : 0.5 + 0.1 * (day % 7));
  return days;
}

}  // namespace

int main() {
  const double ideal = nanoseconds(
      200000, [](double kelvin, double pascals) { sink += density_of_ideal_gas(kelvin, pascals); });
  const double state = nanoseconds(2000, [](double kelvin, double pascals) {
    const auto found = calculations::nitrogen_state(quantities::kelvin(kelvin),
                                                    quantities::AbsolutePressure(pascals));
    sink += found->density.si();
  });
  const std::vector<double> days = ninety_days();
  const double forecast = nanoseconds(2000, [&](double kelvin, double) {
    sink += calculations::fill_forecast(days, kelvin)->median.value_or(0);
  });
  std::printf("ideal gas           %9.1f ns\n", ideal);
  std::printf("nitrogen state      %9.1f ns, %7.0f times an ideal gas\n", state, state / ideal);
  std::printf("forecast of 90 days %9.1f ns, %7.0f times an ideal gas\n", forecast,
              forecast / ideal);
  std::printf("(sum of all results: %g)\n", sink);
}
