#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace benchwarden::entries {

/// One broken rule of a submission. Numbers are never reused, keys never renamed; the sentence of
/// each stands in forms/wording/refusals.toml, with {value} and {accepted}.
enum class RefusalCode {
  kNotAnObject = 1,
  kUnknownMember = 2,
  kMissing = 3,
  kWrongType = 4,
  kUnknownKind = 5,
  kUnknownField = 6,
  kFieldNotApplicable = 7,  ///< the field belongs to another choice of this form
  kNotANumber = 8,
  kTooManyPlaces = 9,
  kImpossible = 10,         ///< outside the impossible band
  kNeedsConfirmation = 11,  ///< outside the normal band and not in `confirmed`
  kUnknownUnit = 12,
  kUnknownCode = 13,
  kUnknownThing = 14,
  kRetiredThing = 15,
  kNotInService = 16,  ///< a withdrawn tool, a sealed container
  kBadId = 17,
  kBadTime = 18,
  kInFuture = 19,
  kBadDate = 20,
  kTextTooLong = 21,
  kBadText = 22,  ///< not in the format of the field
  kTooManyRows = 23,
  kReasonNeeded = 24,
  kUnknownEntry = 25,  ///< `corrects` names no entry, or one that cannot be corrected
  kAlreadyStruck = 26,
  kNothingChanged = 27,
  kNotCompetent = 28,  ///< the act needs a person whom the register has as competent
  kThingExists = 29,
  kFixedAttribute = 30,  ///< an attribute that cannot change once the thing was entered
  kNotAllowed = 31,      ///< the person's role may not record this kind
  kRetiredField = 32,
  kStillInUse = 33,       ///< a stream whose containers are not retired
  kNotEmptied = 34,       ///< a container that is to be retired and holds something by the book
  kReliedOn = 35,         ///< an entry that others rest on cannot be struck out
  kNamedTwice = 36,       ///< one container or file in two places of an entry
  kCountedAlready = 37,   ///< waste from a labelled container into a working bin
  kNotCountable = 38,     ///< a volume where mass is counted, or the reverse, without a density
  kOneNeeded = 39,        ///< none of a group of which one must be given
  kNothingTaken = 40,     ///< a later stage of a collection of which nothing was taken
  kTakenBefore = 41,      ///< a container taken twice in one collection
  kWeighedBefore = 42,    ///< a container weighed twice in one collection
  kNotInCollection = 43,  ///< weighed, and never taken in this collection
  kUnknownDocument = 44,  ///< came back, and nothing of the collection was taken under it
  kNotYetTaken = 45,      ///< a document that came back before it went
  kStagesRest = 46,       ///< a correction would take from later stages what they rest on
  kBlankText = 47,
  kHiddenSign = 48,         ///< a sign in a text that nobody sees
  kTextForNumber = 49,      ///< a number between quotes, or words where a number is wanted
  kUnknownName = 50,        ///< `confirmed` or `cleared` names no field of the form
  kBeforeTarget = 51,       ///< a correction dated before its target was recorded
  kOutOfOrder = 52,         ///< an end before its beginning
  kIdUsed = 53,             ///< an id that another entry brought into being
  kNotBegun = 54,           ///< an id that no entry has brought into being by then
  kClosedBefore = 55,       ///< closed a second time
  kUnknownAttachment = 56,  ///< a digest of no file that was sent in
  kUnknownFinding = 57,     ///< a finding that does not stand now
  kMonthRunning = 58,       ///< a month closed before its end
  kMonthClosed = 59,        ///< a month closed a second time
  kFiguresChanged = 60,     ///< closed with a digest of other figures than the month's
  kMonthBeforeBook = 61,    ///< a month closed in which the book had not begun
  kTakenAlready = 62,       ///< a collection planned, or refused as a whole, after something went
  kYetToCome = 63,          ///< a day or month of what was, later than the day of the entry
  kPassedAlready = 64,      ///< a day of what is to come, earlier than the day of the entry
  kNotPlaced = 65,          ///< a hold lifted that does not stand
  kNotPaired = 66,          ///< in another's name or without a PIN, and from no paired device
  kUnknownPerson = 67,      ///< in the name of nobody who is active
  kPinNeeded = 68,          ///< without a PIN, and of a kind that is recorded with one only
  kUnknownNumber = 69,      ///< the number of no entry
  kOthersEntry = 70,        ///< an entry in another person's name
  kPinShown = 71,           ///< an entry that came with a PIN needs no answer
  kConfirmedBefore = 72,    ///< an entry that was answered for already
};

/// Why a value wants confirmation: each reason has its own sentence under [confirmations] there.
enum class Unusual {
  kAmount,         ///< outside the normal band
  kMoreThanLog,    ///< more than stands on the log of the container it leaves
  kMassForVolume,  ///< a mass that the density does not make of the volume beside it
  kOtherChapter,   ///< into a container whose waste is of another chapter than usual
  kOtherStream,    ///< into a container for another waste than it comes from
  kItemFailed,     ///< left in service with an item that failed
  kSuspected,      ///< suspected contamination, into a container that is not for it
  kWithdrawn,      ///< used although it was withdrawn
  kNoRoom,         ///< more than there is room for by the book
  kHalogenated,    ///< halogenated solvent, into a container that is not for it
  kBeyondBrim,     ///< a reading of more than the container takes
  kAnswer,         ///< another answer than the usual one
};

struct Refusal {
  std::string pointer;  ///< RFC 6901, into the submission
  RefusalCode code = RefusalCode::kMissing;
  std::string value;     ///< what was given, as text; "" where nothing was
  std::string accepted;  ///< what would be accepted, in the definition's own terms
  // Of kNeedsConfirmation
  Unusual unusual = Unusual::kAmount;
  std::string thing = {};  ///< what it is about, by its name in the register
  friend bool operator==(const Refusal&, const Refusal&) = default;
};
using Refusals = std::vector<Refusal>;

/// "unknown_field": the code as the API and the wording file name it.
std::string_view refusal_key(RefusalCode code);
/// "more_than_log": the reason as the wording file names it.
std::string_view unusual_key(Unusual unusual);
/// Every reason there is.
const std::vector<Unusual>& all_unusual();
/// Every code there is, in ascending number.
const std::vector<RefusalCode>& all_refusal_codes();

}  // namespace benchwarden::entries
