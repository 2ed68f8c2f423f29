#pragma once

#include <string_view>

#include "base/result.h"
#include "quantities/units.h"

namespace benchwarden::quantities {

/// A number as a person writes it, with its unit where one was written.
struct Amount {
  double value = 0;
  const Unit* unit = nullptr;
};

/// Reads "28 bar", "400psi", "1,25 l", "1.25 L", "6 fl oz", "-5 °C", "1e-3". A comma or a point
/// stands before the decimals. "1,250" may be one and a quarter or twelve hundred and fifty and is
/// refused. "fl oz" and "gal" alone are those of the US, as the answer's unit says; "imp" or "uk"
/// before them names the others. Small and capital letters are alike, but for "mPa", which is no
/// MPa. kInvalid, saying why after the words of what was given: "can be read in two ways …".
base::Result<Amount> read_amount(std::string_view text);

/// By id, symbol or one of the spellings people use; nullptr for anything else.
const Unit* unit_as_written(std::string_view text);

}  // namespace benchwarden::quantities
