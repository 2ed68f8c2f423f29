#pragma once

#include <string>

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// What stands in a field or cell, in the unit it was typed in. `read` is it as it was read.
quantities::Quantity as_typed(const ReadForm& form, const std::string& path,
                              const quantities::Quantity& read);

/// The millilitre, or what stands in its place where a workshop measures in US units.
const quantities::Unit& small_volume_unit(const Surroundings& surroundings);

/// With the workshop's decimal sign.
std::string told_amount(const quantities::Quantity& quantity, const Surroundings& surroundings);

/// In another unit, with at most three digits that count, and never more than it is.
quantities::Quantity rounded_down(const quantities::Quantity& quantity,
                                  const quantities::Unit& unit);

/// "1 {to} 5 000 mL": a band of one unit in another, never wider than it is. In its own unit it
/// stays exact.
std::string told_band(const Band& band, const quantities::Unit& of, const quantities::Unit& unit,
                      const Surroundings& surroundings);

}  // namespace benchwarden::forms
