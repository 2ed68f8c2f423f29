#include "calculations/line_fit.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "calculations/statistics.h"

namespace benchwarden::calculations {
namespace {

double sum_of_products(std::span<const double> a, std::span<const double> b) {
  std::vector<double> products;
  products.reserve(a.size());
  for (std::size_t i = 0; i < a.size(); ++i) products.push_back(a[i] * b[i]);
  return sum(products);
}

std::vector<double> centred(std::span<const double> values, double mean) {
  std::vector<double> result;
  result.reserve(values.size());
  for (const double value : values) result.push_back(value - mean);
  return result;
}

Interval around(const LineFit& fit, double x, double level, double own_variance) {
  const double away = x - fit.mean_x;
  const double share =
      own_variance + 1.0 / static_cast<double>(fit.count) + away * away / fit.squares_x;
  const double half = student_t_quantile(0.5 + level / 2, fit.degrees_of_freedom()) *
                      fit.residual_sd * std::sqrt(share);
  return {fit.at(x) - half, fit.at(x) + half};
}

}  // namespace

Outcome<LineFit> fit_line(std::span<const double> x, std::span<const double> y) {
  const auto count = static_cast<double>(x.size());
  if (x.size() != y.size()) {
    return Refusal{RefusalCode::kUnequalLists, "y", static_cast<double>(y.size()), count, count};
  }
  constexpr double kPointsMin = 3;
  if (count < kPointsMin) return Refusal{RefusalCode::kTooFew, "x", count, kPointsMin, 1e9};

  LineFit fit;
  fit.count = x.size();
  fit.mean_x = sum(x) / count;
  const double mean_y = sum(y) / count;
  const std::vector<double> away_x = centred(x, fit.mean_x);
  const std::vector<double> away_y = centred(y, mean_y);
  fit.squares_x = sum_of_products(away_x, away_x);
  // Equal x leave squares of rounding only; below 1e-200 the intervals have no finite number.
  constexpr double kRounding = 1e-12;
  const auto [least, most] = std::minmax_element(x.begin(), x.end());
  const double apart = *most - *least;
  const bool equal = apart <= kRounding * std::max(std::abs(*least), std::abs(*most));
  if (equal || !(fit.squares_x > 1e-200)) return Refusal{RefusalCode::kNoSolution, "x"};
  fit.slope = sum_of_products(away_x, away_y) / fit.squares_x;
  fit.intercept = mean_y - fit.slope * fit.mean_x;

  std::vector<double> residuals;
  for (std::size_t i = 0; i < away_x.size(); ++i) {
    residuals.push_back(away_y[i] - fit.slope * away_x[i]);
  }
  fit.residual_sd = std::sqrt(sum_of_products(residuals, residuals) / fit.degrees_of_freedom());
  fit.slope_sd = fit.residual_sd / std::sqrt(fit.squares_x);
  fit.intercept_sd =
      fit.residual_sd * std::sqrt(1.0 / count + fit.mean_x * fit.mean_x / fit.squares_x);
  return fit;
}

Interval confidence_interval(const LineFit& fit, double x, double level) {
  return around(fit, x, level, 0);
}

Interval prediction_interval(const LineFit& fit, double x, double level) {
  return around(fit, x, level, 1);
}

}  // namespace benchwarden::calculations
