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

constexpr std::array<std::pair<Unusual, std::string_view>, 12> kUnusualKeys{{
    {Unusual::kAmount, "amount"},
    {Unusual::kMoreThanLog, "more_than_log"},
    {Unusual::kMassForVolume, "mass_for_volume"},
    {Unusual::kOtherChapter, "other_chapter"},
    {Unusual::kOtherStream, "other_stream"},
    {Unusual::kItemFailed, "item_failed"},
    {Unusual::kSuspected, "suspected"},
    {Unusual::kWithdrawn, "withdrawn"},
    {Unusual::kNoRoom, "no_room"},
    {Unusual::kHalogenated, "halogenated"},
    {Unusual::kBeyondBrim, "beyond_brim"},
    {Unusual::kAnswer, "answer"},
}};

template <class Keys, class Key>
std::string_view key_in(const Keys& keys, Key wanted) {
  const auto* found =
      std::find_if(keys.begin(), keys.end(), [&](const auto& row) { return row.first == wanted; });
  assert(found != keys.end());
  return found->second;
}

template <class Keys>
auto firsts_of(const Keys& keys) {
  std::vector<typename Keys::value_type::first_type> all;
  for (const auto& row : keys) all.push_back(row.first);
  return all;
}

}  // namespace

std::string_view refusal_key(RefusalCode code) { return key_in(kKeys, code); }

std::string_view unusual_key(Unusual unusual) { return key_in(kUnusualKeys, unusual); }

const std::vector<Unusual>& all_unusual() {
  static const std::vector<Unusual> all = firsts_of(kUnusualKeys);
  return all;
}

const std::vector<RefusalCode>& all_refusal_codes() {
  static const std::vector<RefusalCode> codes = firsts_of(kKeys);
  return codes;
}

}  // namespace benchwarden::entries
