#pragma once

#include <algorithm>
#include <array>
#include <string_view>

namespace benchwarden::reports {

/// A sentence of reports/wording that the code asks for, and the {placeholders} it must hold,
/// separated by spaces.
struct WordingKey {
  std::string_view name;
  std::string_view placeholders;
};

// Headings of sections and columns and the names of months are asked for by their own names and
// stand in no list here; they are just as required.
inline constexpr std::array kWordingKeys{
    WordingKey{"language", ""},
    WordingKey{"author", ""},
    // on every page
    WordingKey{"page.period_month", "month"},
    WordingKey{"page.period_cylinder", "cylinder"},
    WordingKey{"page.period_tool", "thing"},
    WordingKey{"page.period_gauge", "thing"},
    WordingKey{"page.made_at", "time"},
    WordingKey{"page.no_entries", ""},
    WordingKey{"page.book_size", "size"},
    WordingKey{"page.tree_head", "root"},
    WordingKey{"page.page_of", "page pages"},
    WordingKey{"page.not_for_issue", ""},
    WordingKey{"page.signs_missing", "count"},
    // under the title
    WordingKey{"subject.site", "name address"},
    WordingKey{"subject.site_name_only", "name"},
    WordingKey{"subject.site_reference", "reference"},
    WordingKey{"subject.no_site", ""},
    WordingKey{"subject.month", "month first last zone"},
    WordingKey{"subject.month_not_over", "as_of"},
    WordingKey{"subject.month_not_begun", "as_of"},
    WordingKey{"subject.thing", "thing name"},
    WordingKey{"subject.thing_unknown", "thing"},
    WordingKey{"subject.history_until", "as_of zone"},
    WordingKey{"subject.book", "size root"},
    WordingKey{"subject.report_id", "id"},
    WordingKey{"subject.preview", ""},
    WordingKey{"subject.empty_book", ""},
    // words in cells and lines
    WordingKey{"word.yes", ""},
    WordingKey{"word.no", ""},
    WordingKey{"word.month_and_year", "month year"},
    WordingKey{"word.id_and_name", "id name"},
    WordingKey{"word.unverified", "person"},
    WordingKey{"word.retired", "thing"},
    WordingKey{"word.sealed", "thing"},
    WordingKey{"word.working_bin", "thing"},
    WordingKey{"word.label_and_value", "label value"},
    WordingKey{"word.value_and_unit", "value unit"},
    WordingKey{"word.not_given", ""},
    WordingKey{"word.not_recorded", ""},
    WordingKey{"word.no_figure", ""},
    WordingKey{"word.list_mark", ""},
    WordingKey{"word.row_mark", ""},
    // corrections
    WordingKey{"correction.corrected", "entry time person changes reason"},
    WordingKey{"correction.struck", "entry time person reason"},
    WordingKey{"correction.change", "field before after"},
    WordingKey{"correction.no_reason", ""},
    WordingKey{"correction.of_entry", "entry kind time what"},
    WordingKey{"correction.short", "entry"},
    WordingKey{"correction.struck_short", "entry"},
    // waste-month: totals, levels, collections
    WordingKey{"streams.caption", ""},
    WordingKey{"streams.none", ""},
    WordingKey{"streams.hazardous_total", ""},
    WordingKey{"streams.other_total", ""},
    WordingKey{"streams.no_mass", "stream"},
    WordingKey{"streams.name_and_code", "stream code"},
    WordingKey{"streams.density", "stream density unit source"},
    WordingKey{"streams.density_no_source", ""},
    WordingKey{"figures.hazardous_arisen", ""},
    WordingKey{"figures.other_arisen", ""},
    WordingKey{"figures.collected", ""},
    WordingKey{"figures.standing", ""},
    WordingKey{"levels.caption", "time"},
    WordingKey{"levels.none", ""},
    WordingKey{"collections.caption", ""},
    WordingKey{"collections.none", ""},
    WordingKey{"collections.not_returned", ""},
    WordingKey{"collections.stated_mass", "mass unit"},
    WordingKey{"collections.open_title", ""},
    WordingKey{"collections.open", "collection document date"},
    // waste-month: the equation and the readings
    WordingKey{"balance.equation", ""},
    WordingKey{"balance.caption_volume", ""},
    WordingKey{"balance.caption_mass", ""},
    WordingKey{"balance.total", "stream"},
    WordingKey{"balance.none", ""},
    WordingKey{"differences.meaning", ""},
    WordingKey{"differences.caption_volume", ""},
    WordingKey{"differences.caption_mass", ""},
    WordingKey{"differences.none", ""},
    // waste-month: quality of the data
    WordingKey{"quality.title", ""},
    WordingKey{"quality.none", "what"},
    WordingKey{"quality.late", ""},
    WordingKey{"quality.corrected", ""},
    WordingKey{"quality.unverified", ""},
    WordingKey{"quality.for_earlier", ""},
    WordingKey{"quality.register", ""},
    WordingKey{"quality.contaminated", ""},
    WordingKey{"quality.between_streams", ""},
    WordingKey{"quality.below_zero", ""},
    WordingKey{"quality.retired", ""},
    WordingKey{"quality.late_line", "entry kind occurred recorded person"},
    WordingKey{"quality.unverified_line", "entry kind occurred person"},
    WordingKey{"quality.for_earlier_line", "entry occurred recorded"},
    WordingKey{"quality.corrected_earlier_line", "entry occurred by recorded"},
    WordingKey{"quality.register_line", "entry class thing fields recorded person"},
    WordingKey{"quality.contaminated_line", "entry occurred what amount thing"},
    WordingKey{"quality.between_line", "entry kind occurred from from_stream to to_stream"},
    WordingKey{"quality.below_zero_line", "thing amount"},
    WordingKey{"quality.below_zero_bin_line", "thing amount"},
    WordingKey{"quality.retired_line", "thing amount"},
    WordingKey{"quality.retired_unmeasured_line", "thing"},
    // waste-month: the entries behind the totals
    WordingKey{"entries.caption", ""},
    WordingKey{"entries.none", ""},
    WordingKey{"entries.late", "recorded"},
    WordingKey{"effect.added", ""},
    WordingKey{"effect.moved_in", ""},
    WordingKey{"effect.moved_out", ""},
    WordingKey{"effect.taken", ""},
    WordingKey{"effect.read", ""},
    WordingKey{"effect.emptied", ""},
    WordingKey{"effect.placed", ""},
    WordingKey{"effect.sealed", ""},
    // methods
    WordingKey{"methods.month", "zone"},
    WordingKey{"methods.arisen", ""},
    WordingKey{"methods.rounding", ""},
    WordingKey{"methods.balance", ""},
    WordingKey{"methods.register", "size"},
    WordingKey{"methods.late", ""},
    WordingKey{"methods.no_verdict", ""},
    WordingKey{"methods.tree_head", "size root"},
    WordingKey{"methods.pressure", ""},
    WordingKey{"methods.content", ""},
    WordingKey{"methods.loss", ""},
    WordingKey{"methods.errors", ""},
    WordingKey{"methods.forecast", ""},
    WordingKey{"methods.order", "zone"},
    // histories: of a cylinder, of a tool or gauge
    WordingKey{"register.caption", ""},
    WordingKey{"register.none", ""},
    WordingKey{"checks.caption", ""},
    WordingKey{"checks.none", ""},
    WordingKey{"checks.typed_as", "field value unit"},
    WordingKey{"checks.struck", ""},
    WordingKey{"changes.caption", ""},
    WordingKey{"changes.none", ""},
    WordingKey{"course.chart", ""},
    WordingKey{"course.content_axis", ""},
    WordingKey{"course.time_axis", "zone"},
    WordingKey{"course.contents", ""},
    WordingKey{"course.losses", ""},
    WordingKey{"course.fillings", ""},
    WordingKey{"course.caption", ""},
    WordingKey{"course.none", ""},
    WordingKey{"course.loss_found", "entry date loss uncertainty"},
    WordingKey{"course.forecast", "count point error limit day"},
    WordingKey{"course.no_forecast", "why"},
    WordingKey{"course.error_chart", "point"},
    WordingKey{"course.error_axis", ""},
    WordingKey{"course.errors", "point"},
    WordingKey{"course.left", ""},
    WordingKey{"course.adjustments", ""},
    WordingKey{"course.error_line", ""},
    WordingKey{"course.class_limit", "limit"},
    WordingKey{"course.beyond", ""},
    WordingKey{"course.not_beyond", ""},
    WordingKey{"course.points", ""},
    WordingKey{"course.no_points", ""},
    WordingKey{"verdict.loss_beyond_uncertainty", ""},
    WordingKey{"verdict.no_evidence_of_loss", ""},
    WordingKey{"verdict.cannot_tell", ""},
    WordingKey{"untold.other_gas", ""},
    WordingKey{"untold.no_water_capacity", ""},
    WordingKey{"untold.no_pressure", ""},
    WordingKey{"untold.no_temperature", ""},
    WordingKey{"untold.out_of_range", ""},
    WordingKey{"untold.first_of_filling", ""},
    WordingKey{"untold.use_not_told", ""},
    WordingKey{"untold.no_rule", ""},
    WordingKey{"untold.no_class", ""},
    WordingKey{"untold.no_points", ""},
    WordingKey{"untold.adjusted", ""},
    WordingKey{"untold.too_few", ""},
    WordingKey{"untold.not_towards_limit", ""},
    WordingKey{"untold.beyond_already", ""},
    WordingKey{"untold.too_far_ahead", ""},
    // what is due
    WordingKey{"due.day", "day month"},
    WordingKey{"due.collection_planned", "collection day"},
    WordingKey{"due.collection_planned_of", "collection containers day"},
    WordingKey{"due.recorded_in", "entry"},
    WordingKey{"due.calendar", "site"},
    WordingKey{"due.calendar_no_site", ""},
    // last lines
    WordingKey{"cautions.source", "source"},
    WordingKey{"signature.intro", ""},
    WordingKey{"signature.name", ""},
    WordingKey{"signature.date", ""},
    WordingKey{"signature.sign", ""},
};

/// The name of a sentence, checked by the compiler to be in the list.
class Key {
 public:
  // Implicit on purpose: `wording.text("word.yes")` reads best.
  consteval Key(const char* name) : name_(name) {  // NOLINT(google-explicit-constructor)
    const bool known = std::any_of(kWordingKeys.begin(), kWordingKeys.end(),
                                   [&](const WordingKey& key) { return key.name == name_; });
    if (!known) throw "no such sentence in kWordingKeys";  // NOLINT: stops the compiler
  }
  [[nodiscard]] constexpr std::string_view name() const { return name_; }

 private:
  std::string_view name_;
};

}  // namespace benchwarden::reports
