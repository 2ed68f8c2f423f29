#include "entries/refusal.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <utility>

namespace benchwarden::entries {
namespace {

using Code = RefusalCode;
constexpr std::array<std::pair<Code, std::string_view>, 72> kKeys{{
    {Code::kNotAnObject, "not_an_object"},
    {Code::kUnknownMember, "unknown_member"},
    {Code::kMissing, "missing"},
    {Code::kWrongType, "wrong_type"},
    {Code::kUnknownKind, "unknown_kind"},
    {Code::kUnknownField, "unknown_field"},
    {Code::kFieldNotApplicable, "field_not_applicable"},
    {Code::kNotANumber, "not_a_number"},
    {Code::kTooManyPlaces, "too_many_places"},
    {Code::kImpossible, "impossible"},
    {Code::kNeedsConfirmation, "needs_confirmation"},
    {Code::kUnknownUnit, "unknown_unit"},
    {Code::kUnknownCode, "unknown_code"},
    {Code::kUnknownThing, "unknown_thing"},
    {Code::kRetiredThing, "retired_thing"},
    {Code::kNotInService, "not_in_service"},
    {Code::kBadId, "bad_id"},
    {Code::kBadTime, "bad_time"},
    {Code::kInFuture, "in_future"},
    {Code::kBadDate, "bad_date"},
    {Code::kTextTooLong, "text_too_long"},
    {Code::kBadText, "bad_text"},
    {Code::kTooManyRows, "too_many_rows"},
    {Code::kReasonNeeded, "reason_needed"},
    {Code::kUnknownEntry, "unknown_entry"},
    {Code::kAlreadyStruck, "already_struck"},
    {Code::kNothingChanged, "nothing_changed"},
    {Code::kNotCompetent, "not_competent"},
    {Code::kThingExists, "thing_exists"},
    {Code::kFixedAttribute, "fixed_attribute"},
    {Code::kNotAllowed, "not_allowed"},
    {Code::kRetiredField, "retired_field"},
    {Code::kStillInUse, "still_in_use"},
    {Code::kNotEmptied, "not_emptied"},
    {Code::kReliedOn, "relied_on"},
    {Code::kNamedTwice, "named_twice"},
    {Code::kCountedAlready, "counted_already"},
    {Code::kNotCountable, "not_countable"},
    {Code::kOneNeeded, "one_needed"},
    {Code::kNothingTaken, "nothing_taken"},
    {Code::kTakenBefore, "taken_before"},
    {Code::kWeighedBefore, "weighed_before"},
    {Code::kNotInCollection, "not_in_collection"},
    {Code::kUnknownDocument, "unknown_document"},
    {Code::kNotYetTaken, "not_yet_taken"},
    {Code::kStagesRest, "stages_rest"},
    {Code::kBlankText, "blank_text"},
    {Code::kHiddenSign, "hidden_sign"},
    {Code::kTextForNumber, "text_for_number"},
    {Code::kUnknownName, "unknown_name"},
    {Code::kBeforeTarget, "before_target"},
    {Code::kOutOfOrder, "out_of_order"},
    {Code::kIdUsed, "id_used"},
    {Code::kNotBegun, "not_begun"},
    {Code::kClosedBefore, "closed_before"},
    {Code::kUnknownAttachment, "unknown_attachment"},
    {Code::kUnknownFinding, "unknown_finding"},
    {Code::kMonthRunning, "month_running"},
    {Code::kMonthClosed, "month_closed"},
    {Code::kFiguresChanged, "figures_changed"},
    {Code::kMonthBeforeBook, "month_before_book"},
    {Code::kTakenAlready, "taken_already"},
    {Code::kYetToCome, "yet_to_come"},
    {Code::kPassedAlready, "passed_already"},
    {Code::kNotPlaced, "not_placed"},
    {Code::kNotPaired, "not_paired"},
    {Code::kUnknownPerson, "unknown_person"},
    {Code::kPinNeeded, "pin_needed"},
    {Code::kUnknownNumber, "unknown_number"},
    {Code::kOthersEntry, "others_entry"},
    {Code::kPinShown, "pin_shown"},
    {Code::kConfirmedBefore, "confirmed_before"},
}};

}  // namespace

std::string_view refusal_key(RefusalCode code) {
  const auto* found =
      std::find_if(kKeys.begin(), kKeys.end(), [&](const auto& row) { return row.first == code; });
  assert(found != kKeys.end());
  return found->second;
}

const std::vector<RefusalCode>& all_refusal_codes() {
  static const std::vector<RefusalCode> codes = [] {
    std::vector<RefusalCode> all;
    for (const auto& row : kKeys) all.push_back(row.first);
    return all;
  }();
  return codes;
}

}  // namespace benchwarden::entries
