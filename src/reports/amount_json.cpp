#include "reports/amount_json.h"

#include "reports/number_text.h"

namespace benchwarden::reports {

base::Json amount_json(std::int64_t amount) { return base::Decimal{amount}; }

base::Json amount_unit_json(tallies::CountedBy counted_by) {
  return counted_by == tallies::CountedBy::kVolume ? "ml" : "g";
}

base::Json mass_kg_json(const std::optional<std::int64_t>& mass) {
  if (!mass) return nullptr;
  return base::Decimal{base::divide_round_half_away(*mass, 1'000)};
}

base::Json time_json(const std::optional<base::Timestamp>& time) {
  if (!time) return nullptr;
  return base::format_rfc3339(*time);
}

}  // namespace benchwarden::reports
