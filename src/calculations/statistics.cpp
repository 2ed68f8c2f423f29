#include "calculations/statistics.h"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cassert>
#include <cmath>

namespace benchwarden::calculations {

double sum(std::span<const double> values) {
  double total = 0;
  double lost = 0;
  for (const double value : values) {
    const double next = total + value;
    lost += std::abs(total) >= std::abs(value) ? (total - next) + value : (value - next) + total;
    total = next;
  }
  return total + lost;
}

Spread spread(std::span<const double> values) {
  Spread spread;
  double squares = 0;
  for (const double value : values) {
    ++spread.count;
    const double before = value - spread.mean;
    spread.mean += before / static_cast<double>(spread.count);
    squares += before * (value - spread.mean);
  }
  if (spread.count > 1) spread.sd = std::sqrt(squares / static_cast<double>(spread.count - 1));
  return spread;
}

double student_t_quantile(double probability, double degrees_of_freedom) {
  assert(probability > 0 && probability < 1 && degrees_of_freedom >= 1);
  return boost::math::quantile(boost::math::students_t(degrees_of_freedom), probability);
}

double normal_cdf(double z) { return boost::math::cdf(boost::math::normal(), z); }

double rectangular(double half_width) { return half_width / std::sqrt(3.0); }

double combined(std::span<const double> uncertainties) {
  double squares = 0;
  for (const double uncertainty : uncertainties) squares += uncertainty * uncertainty;
  return std::sqrt(squares);
}

}  // namespace benchwarden::calculations
