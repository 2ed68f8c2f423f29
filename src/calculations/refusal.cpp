#include "calculations/refusal.h"

#include <array>

namespace benchwarden::calculations {
namespace {

constexpr std::array<std::string_view, 13> kKeys{
    "missing",     "unknown_input", "wrong_type",    "unknown_code", "out_of_range",
    "too_few",     "too_many",      "unequal_lists", "no_solution",  "not_whole",
    "contradicts", "after_judged",  "after_calendar"};

}  // namespace

std::string_view refusal_key(RefusalCode code) { return kKeys.at(static_cast<std::size_t>(code)); }

std::vector<std::string_view> all_refusal_keys() { return {kKeys.begin(), kKeys.end()}; }

}  // namespace benchwarden::calculations
