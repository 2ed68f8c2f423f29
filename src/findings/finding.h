#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/civil_date.h"
#include "base/timestamp.h"

namespace benchwarden::findings {

/// How much a finding weighs: worth knowing, to be done by a day, or beyond a limit.
enum class Severity { kNote, kDue, kOver };

/// How well the source of a figure is known, from the best known on. What is the workshop's own, or
/// common practice, has no text to be read.
enum class Confidence { kTextSeen, kOwnRule, kSecondHand, kFromMemory };

/// What a finding is about; both "" for the workshop as a whole.
struct Subject {
  std::string thing_class;
  std::string id;
  friend auto operator<=>(const Subject&, const Subject&) = default;
};

/// The rule that judged, as it stood in its pack.
struct Authority {
  std::string rule;     ///< "us.sqg.days"
  std::string pack;     ///< "us-federal"
  std::string edition;  ///< of the pack: the day it stands for, YYYY-MM-DD
  std::string digest;   ///< of the pack's text: SHA-256, in hex
  std::string citation;
  Confidence confidence = Confidence::kFromMemory;
  std::string sentence;  ///< what the rule says, plainly
  std::string clears;    ///< what would end a finding of it
};

/// A value as it is shown, in a unit of quantities::find_unit or "d", "months", "" (a word).
struct Shown {
  std::string value;
  std::string unit;
  std::string field = {};  ///< of the forms, whose option the word is; its label is for people
  friend bool operator==(const Shown&, const Shown&) = default;
};
/// What the sentence of a finding is filled with, by name: "measured", "limit", "day" …
using Values = std::vector<std::pair<std::string, Shown>>;

/// What a rule or a calculation says of the state of the book at one moment.
struct Finding {
  Authority authority;
  Subject subject;
  std::string says;  ///< key of its sentence in reports/wording/findings.toml
  Severity severity = Severity::kNote;
  base::Instant since;  ///< when this episode began, by what happened, not by who looked
  std::optional<base::CivilDate> due;  ///< the last day to act without going beyond the limit
  Values values;
  std::vector<std::uint64_t> entries;  ///< numbers of those it rests on, ascending
};

/// What is to be done on a day, whether or not it is near.
struct DueItem {
  Authority authority;
  Subject subject;
  std::string says;
  base::CivilDate day;  ///< the last day on which it is in time
  Values values;
};

/// What a pack tells of something under care without a figure to hold it against.
struct Advice {
  Authority authority;
  Subject subject;
};

/// How long what an entry tells is to be kept.
struct Retained {
  Authority authority;
  std::uint64_t entry = 0;
  base::CivilDate until;  ///< not to be destroyed before the day after this one
};

/// All that the rules say at one moment, sorted by day and subject where it has one.
struct Judgement {
  std::vector<Finding> findings;
  std::vector<DueItem> due;
  std::vector<Advice> advice;
  std::vector<Retained> retained;
};

/// "over", "due", "note".
std::string_view word(Severity severity);
/// "text-seen", "own-rule", "second-hand", "from-memory".
std::string_view word(Confidence confidence);

/// Which of several things about one subject it is, by the value "which": a document, a container,
/// a word of a list. "" where the subject is all there is.
std::string_view part_of(const Values& values);

/// What names an episode: rule, subject, severity, start and part. An acknowledgement of one says
/// nothing of another.
std::string key_of(const Finding& finding);

}  // namespace benchwarden::findings
