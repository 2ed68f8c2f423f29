#include "calculations/gauge_decision.h"

#include <cmath>
#include <limits>

#include "calculations/statistics.h"

namespace benchwarden::calculations {
namespace {

constexpr double kLarge = 1e12;

bool at_most(double value, double border, double limit) {
  constexpr double kShare = 1e-9;
  return value <= border + kShare * limit;
}

}  // namespace

Outcome<Decision> decide(DecisionRule rule, double error, double limit,
                         double expanded_uncertainty) {
  if (const auto fits = within("limit_bar", limit, 1e-12, kLarge); !fits) return fits.error();
  const auto guards = within("expanded_uncertainty_bar", expanded_uncertainty, 0, kLarge);
  if (!guards) return guards.error();
  if (expanded_uncertainty > limit) {
    return Refusal{RefusalCode::kContradicts, "expanded_uncertainty_bar", expanded_uncertainty, 0,
                   limit};
  }
  if (const auto fits = within("error_bar", error, -kLarge, kLarge); !fits) return fits.error();
  const double size = std::abs(error);
  const double guard = rule == DecisionRule::kSimple ? 0 : expanded_uncertainty;
  if (at_most(size, limit - guard, limit)) return Decision::kPass;
  const bool guarded = rule == DecisionRule::kGuarded;
  if (at_most(size, limit, limit)) {
    return guarded ? Decision::kNotAccepted : Decision::kConditionalPass;
  }
  if (rule != DecisionRule::kFourWay) return Decision::kFail;
  return at_most(size, limit + guard, limit) ? Decision::kConditionalFail : Decision::kFail;
}

Outcome<double> conformance_probability(double error, double limit, double standard_uncertainty) {
  if (const auto fits = within("limit_bar", limit, 1e-12, kLarge); !fits) return fits.error();
  if (const auto fits = within("error_bar", error, -kLarge, kLarge); !fits) return fits.error();
  const auto fits = within("expanded_uncertainty_bar", kCoverageFactor * standard_uncertainty,
                           std::numeric_limits<double>::min(), kLarge);
  if (!fits) return fits.error();
  return normal_cdf((limit - error) / standard_uncertainty) -
         normal_cdf((-limit - error) / standard_uncertainty);
}

}  // namespace benchwarden::calculations
