#pragma once

#include <array>

#include "reports/wording_key.h"

namespace benchwarden::reports {

/// Those of waste-year and collection-sheet.
inline constexpr std::array kWasteWordingKeys{
    // waste-year
    WordingKey{"subject.year", "year zone"},
    WordingKey{"subject.year_not_over", "as_of"},
    WordingKey{"subject.year_not_begun", "as_of"},
    WordingKey{"word.from_to", "from to"},
    WordingKey{"year.glance", "over closed loads open late corrected unconfirmed"},
    WordingKey{"year.streams", ""},
    WordingKey{"year.no_streams", ""},
    WordingKey{"year.equation", ""},
    WordingKey{"year.balance_volume", ""},
    WordingKey{"year.balance_mass", ""},
    WordingKey{"year.months", ""},
    WordingKey{"year.months_total", ""},
    WordingKey{"year.bars", "stream"},
    WordingKey{"year.bars_axis", "unit"},
    WordingKey{"year.with_national_code", "stream code"},
    WordingKey{"year.consignments", ""},
    WordingKey{"year.no_consignments", ""},
    WordingKey{"year.consignments_total", ""},
    WordingKey{"year.open_documents", ""},
    WordingKey{"year.carriers", ""},
    WordingKey{"year.no_return", ""},
    WordingKey{"year.return", ""},
    WordingKey{"year.return_empty", ""},
    WordingKey{"year.return_source", "pack source"},
    WordingKey{"year.returns_unknown", ""},
    WordingKey{"year.quarter", "year quarter"},
    WordingKey{"year.generator", ""},
    WordingKey{"year.quality", ""},
    WordingKey{"year.counted", "what count entries"},
    WordingKey{"year.closing", ""},
    WordingKey{"year.month_over", ""},
    WordingKey{"year.month_running", ""},
    WordingKey{"year.month_not_begun", ""},
    WordingKey{"year.not_closed", ""},
    WordingKey{"year.closed_by", "entry"},
    WordingKey{"year.as_signed", ""},
    WordingKey{"year.not_as_signed", ""},
    WordingKey{"methods.year", ""},
    WordingKey{"methods.returns", ""},
};

}  // namespace benchwarden::reports
