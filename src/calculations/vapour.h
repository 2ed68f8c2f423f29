#pragma once

#include <optional>

#include "calculations/refusal.h"
#include "quantities/measure.h"

namespace benchwarden::calculations {

/// A solvent, as its safety data sheet gives it.
struct Solvent {
  double molar_mass_g_mol = 0;
  double lower_limit_percent = 0;                  ///< lower explosive limit, by volume in air
  std::optional<double> vapour_pressure_kpa = {};  ///< at the room's temperature
};

struct Vapour {
  quantities::Volume vapour;
  double concentration_percent = 0;       ///< by volume, average of the room
  double share_of_lower_limit = 0;        ///< 1: the average of the room is at the limit
  double uncut_share_of_lower_limit = 0;  ///< the same without the cut at saturation
  /// What air can hold at most, where the vapour pressure is known. The average is cut there.
  std::optional<double> saturation_percent = {};
};

/// All of a spill evaporated and spread evenly in a closed room: ideal gas, (m / M) R T / p of
/// vapour. Near the spill the concentration is always higher, up to saturation. 0 < room <= 1e6 m³,
/// 0 <= mass <= 1e4 kg, 2 <= M <= 1000 g/mol, 0.01 <= limit <= 50 %, temperature -40 to 60 °C,
/// pressure 0.5 to 1.1 bar; else kOutOfRange. A vapour pressure not below that of the air, where
/// the liquid boils: kContradicts.
Outcome<Vapour> spill_vapour(quantities::Volume room, quantities::Mass spilled,
                             const Solvent& solvent, quantities::Temperature temperature,
                             quantities::AbsolutePressure pressure);

/// Categories of flammable liquids by flash point and initial boiling point. The limits of the
/// category belong to the rule that names them: 29 CFR 1910.106(a)(19) has four, the CLP
/// Regulation (EC) No 1272/2008, annex I table 2.6.1, has the first three.
enum class FlashPointCategory { kNone = 0, k1 = 1, k2 = 2, k3 = 3, k4 = 4 };
FlashPointCategory osha_category(quantities::Temperature flash_point,
                                 quantities::Temperature boiling_point);
FlashPointCategory clp_category(quantities::Temperature flash_point,
                                quantities::Temperature boiling_point);

}  // namespace benchwarden::calculations
