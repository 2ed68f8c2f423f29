#pragma once

#include <cstddef>
#include <span>

namespace benchwarden::calculations {

/// Compensated (Neumaier): the rounding errors of the single additions are kept and added at the
/// end, so that large numbers that cancel leave the small ones.
double sum(std::span<const double> values);

/// Mean and sample standard deviation (divisor n - 1; 0 for fewer than two values), by Welford's
/// recurrence, which never subtracts two large squares.
struct Spread {
  std::size_t count = 0;
  double mean = 0;
  double sd = 0;
};
Spread spread(std::span<const double> values);

/// The value that a Student t variable stays below with this probability.
/// 0 < probability < 1; degrees_of_freedom >= 1; asserted.
double student_t_quantile(double probability, double degrees_of_freedom);
/// The probability that a standard normal variable is below z.
double normal_cdf(double z);

/// Coverage factor used for every expanded uncertainty: about 95 % of a normal distribution
/// (JCGM 100:2008, 6.2.2 and G.6.6).
constexpr double kCoverageFactor = 2.0;

/// Standard uncertainty of a value known only to lie within +- half_width (JCGM 100:2008, 4.3.7).
double rectangular(double half_width);
/// Root of the sum of squares: independent standard uncertainties put together (JCGM 100:2008,
/// 5.1.2).
double combined(std::span<const double> uncertainties);

}  // namespace benchwarden::calculations
