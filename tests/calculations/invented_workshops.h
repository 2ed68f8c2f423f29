#pragma once

#include <cmath>
#include <functional>
#include <random>

// Invented workshops for the coverage of the fill forecast: litres that come in on a day. Day 0 is
// the first of the history and a Monday; a workshop is asked for the days in their order.
namespace benchwarden::calculations::invented {

using Random = std::mt19937;
using Workshop = std::function<double(Random&, int day)>;
/// What the usual rate is multiplied by on a day.
using Course = std::function<double(Random&, int day)>;

inline double additions(Random& random, double per_day) {
  const int count = std::poisson_distribution<int>(per_day)(random);
  double litres = 0;
  for (int i = 0; i < count; ++i) litres += std::gamma_distribution<double>(4, 0.3)(random);
  return litres;
}

/// 0.8 additions a day of 1.2 L in the mean, every day of the week alike; `course` makes them more
/// or less frequent.
inline Workshop every_day(Course course) {
  return [course = std::move(course)](Random& random, int day) {
    return additions(random, 0.8 * course(random, day));
  };
}

/// Monday to Friday 1.2 additions a day of 1 L in the mean; `course` as above.
inline Workshop weekdays(Course course) {
  return [course = std::move(course)](Random& random, int day) {
    const double per_day = 1.2 * course(random, day);
    const int count = day % 7 < 5 ? std::poisson_distribution<int>(per_day)(random) : 0;
    double litres = 0;
    for (int i = 0; i < count; ++i) {
      litres += std::lognormal_distribution<double>(-0.2, 0.6)(random);
    }
    return litres;
  };
}

/// As every_day, but `course` makes the additions larger or smaller.
inline Workshop every_day_sized(Course course) {
  return [course = std::move(course)](Random& random, int day) {
    const double size = course(random, day);
    return additions(random, 0.8) * size;
  };
}

/// Something on one day in eight, of very uneven size.
inline double sparse(Random& random, int) {
  const bool some = std::bernoulli_distribution(0.12)(random);
  return some ? std::lognormal_distribution<double>(1.2, 0.8)(random) : 0;
}

inline double steadily(Random&, int) { return 1; }

/// Each week the rate is that of the week before times e to a normal number of this deviation.
inline Course drifting(double sd_per_week) {
  return [sd_per_week, level = 0.0](Random& random, int day) mutable {
    if (day == 0) level = 0;
    if (day % 7 == 0) level += std::normal_distribution<double>(0, sd_per_week)(random);
    return std::exp(level);
  };
}

/// Busy and quiet weeks by chance, about a rate that stays: coefficient of variation 1/2.
inline Course by_busy_weeks() {
  return [factor = 1.0](Random& random, int day) mutable {
    if (day % 7 == 0) factor = std::gamma_distribution<double>(4, 0.25)(random);
    return factor;
  };
}

inline Course changed_from(int first_day, double factor) {
  return [=](Random&, int day) { return day >= first_day ? factor : 1; };
}

inline Course growing(double per_week) {
  return [per_week](Random&, int day) { return std::pow(1 + per_week, day / 7.0); };
}

}  // namespace benchwarden::calculations::invented
