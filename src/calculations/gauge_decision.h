#pragma once

#include "calculations/refusal.h"

namespace benchwarden::calculations {

/// How an error is held against its limit. The rule is chosen before the measurement
/// (ILAC-G8:09/2019, section 4).
enum class DecisionRule {
  kSimple,   ///< the error alone: up to half of what is accepted at the limit may lie beyond it
  kGuarded,  ///< accepted only within limit - U: below 2.5 % of what is accepted lies beyond
  kFourWay,  ///< pass, conditional pass, conditional fail, fail, with bands of U
};
/// From the best to the worst.
enum class Decision {
  kPass,
  kConditionalPass,
  kNotAccepted,  ///< by kGuarded: within the limit, but in the guard band
  kConditionalFail,
  kFail,
};

/// `error` and `expanded_uncertainty` (k = 2) in the unit of `limit`. On a border the better side
/// holds; values equal within 1e-9 of the limit count as on it, so that 0.1 + 0.2 meets 0.3.
/// limit > 0 and expanded_uncertainty >= 0, else kOutOfRange; expanded_uncertainty <= limit, else
/// kContradicts: a comparison less certain than the limit decides nothing by any rule.
Outcome<Decision> decide(DecisionRule rule, double error, double limit,
                         double expanded_uncertainty);

/// The probability that the true error lies within +- limit, given what was measured, before which
/// nothing was known: Phi((limit - e) / u) - Phi((-limit - e) / u) (JCGM 106:2012, 7.4).
/// standard_uncertainty > 0; else kOutOfRange (expanded_uncertainty_bar, twice of it).
Outcome<double> conformance_probability(double error, double limit, double standard_uncertainty);

}  // namespace benchwarden::calculations
