#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "entries/field_value.h"

namespace benchwarden::entries {

/// An amount as the entry gave it. Liquids come by volume, solids by mass; a weighed collection
/// may give both.
struct Amount {
  std::optional<quantities::Microlitres> volume;
  std::optional<quantities::Milligrams> mass;
  friend bool operator==(const Amount&, const Amount&) = default;
};

/// Waste enters a container.
struct Adds {
  std::string container;
  Amount amount;
  friend bool operator==(const Adds&, const Adds&) = default;
};
/// Content goes from one container into another. Waste that leaves a working bin for a labelled
/// waste container arises at that moment. No amount: all that is in it.
struct Moves {
  std::string from;
  std::string to;
  Amount amount;
  friend bool operator==(const Moves&, const Moves&) = default;
};
/// kNotTaken: the carrier refused all of it, so that what was planned does not stand any more.
enum class CollectionStage { kPlanned, kTaken, kDocumentReturned, kWeighed, kNotTaken };
struct TakenLoad {
  std::string container;
  Amount amount;
  bool emptied = false;  ///< nothing was left in it, so its storage clock restarts
  friend bool operator==(const TakenLoad&, const TakenLoad&) = default;
};
/// A carrier takes waste away; only the stage kTaken moves anything.
struct Takes {
  std::string collection;
  CollectionStage stage = CollectionStage::kPlanned;
  std::string carrier;          ///< "" where this stage does not say
  std::string document_number;  ///< "" where this stage does not say
  std::vector<TakenLoad> loads;
  friend bool operator==(const Takes&, const Takes&) = default;
};
/// A container is dipped or weighed.
struct Reads {
  std::string container;
  Amount amount;
  friend bool operator==(const Reads&, const Reads&) = default;
};
/// What an entry says of a thing beside its effect on amounts: the fields its form keeps.
struct Told {
  std::string kind;  ///< of the entry
  Fields fields;
  friend bool operator==(const Told&, const Told&) = default;
};
enum class Outcome { kRecorded, kPassed, kFailed, kWithdrawn };
/// A cylinder, tool or other thing is looked at.
struct Checks {
  std::string thing_class;
  std::string thing;
  Outcome outcome = Outcome::kRecorded;
  Told told{};
  friend bool operator==(const Checks&, const Checks&) = default;
};
enum class RegisterAct { kAdded, kChanged, kRetired };
/// Something under care is entered, altered or retired.
struct Changes {
  std::string thing_class;
  std::string thing;
  RegisterAct act = RegisterAct::kAdded;
  Fields attributes;
  friend bool operator==(const Changes&, const Changes&) = default;
};
enum class ContainerAct { kPlaced, kSealed, kEmptied, kSwapped };
/// A container changes state without waste being weighed or poured.
struct Handles {
  std::string container;
  ContainerAct act = ContainerAct::kPlaced;
  friend bool operator==(const Handles&, const Handles&) = default;
};
/// Nothing but the fact itself, about one thing or none.
struct Notes {
  std::string thing_class;  ///< "" where it is about no thing
  std::string thing;
  Told told{};
  friend bool operator==(const Notes&, const Notes&) = default;
};

/// Whether who is named as having recorded something says that they did.
enum class Authorship { kMine, kNotMine };
/// A person answers for entries that were recorded in their name without a PIN.
struct Confirms {
  std::vector<std::uint64_t> entries;  ///< their numbers
  Authorship authorship = Authorship::kMine;
  friend bool operator==(const Confirms&, const Confirms&) = default;
};

using Effect = std::variant<Adds, Moves, Takes, Reads, Checks, Changes, Handles, Notes, Confirms>;
using Effects = std::vector<Effect>;

}  // namespace benchwarden::entries
