#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/json.h"
#include "entries/effect.h"
#include "entries/entry.h"
#include "entries/refusal.h"
#include "forms/catalog.h"

namespace benchwarden::forms {

/// How far ahead of `now`, and for a correction before the recording of its target, an occurred_at
/// is taken as clock error; beyond that it is refused.
inline constexpr std::int64_t kClockToleranceMs = 10LL * 60 * 1000;

/// What the validator must know of the world, answered by the caller (from the tallies and the
/// book), so that validation itself stays pure.
struct Thing {
  bool retired = false;
  bool in_service = true;
  entries::Fields attributes;  ///< as they stand now
  /// When it was retired, withdrawn or sealed, where known: entries that occurred before are taken
  /// however late they come.
  std::optional<base::Instant> out_of_use_since = std::nullopt;
};
class Surroundings {
 public:
  Surroundings() = default;
  Surroundings(const Surroundings&) = delete;
  Surroundings& operator=(const Surroundings&) = delete;
  virtual ~Surroundings() = default;

  [[nodiscard]] virtual base::Instant now() const = 0;
  /// The day of a moment in the workshop's zone.
  [[nodiscard]] virtual base::CivilDate day_of(base::Instant moment) const = 0;
  /// "technician", "manager", "inspector"; "daemon" for what the daemon records of its own.
  [[nodiscard]] virtual std::string person_role() const = 0;
  /// Whether they showed by a PIN who they are.
  [[nodiscard]] virtual bool person_verified() const = 0;
  /// Whether the register has the person as competent for that, not past its day.
  [[nodiscard]] virtual bool person_may(std::string_view competence) const = 0;
  [[nodiscard]] virtual std::optional<Thing> thing(std::string_view thing_class,
                                                   std::string_view id) const = 0;
  /// The entry to be corrected with all earlier corrections merged in, and whether it was struck.
  struct Target {
    entries::Content content;
    base::Instant recorded_at;  ///< of the entry itself, not of its corrections
    bool struck = false;
    /// It entered a thing into the register that later entries name, so it cannot be struck out.
    bool relied_on = false;
    bool own = false;  ///< recorded in the name of the person who sends
  };
  [[nodiscard]] virtual std::optional<Target> target(const base::Uuid& id) const = 0;
  /// What keeps a thing of the register from being retired.
  struct Ties {
    std::vector<std::string> containers;  ///< of a stream: those that are not retired
    /// What a container holds by the book, in signs ("1 250 mL", "? g" where something went in
    /// unmeasured); "" when nothing.
    std::string content;
  };
  [[nodiscard]] virtual Ties ties(std::string_view thing_class, std::string_view id) const = 0;
  /// What one entry told of a collection.
  struct ToldStage {
    base::Instant at;
    entries::Takes takes;
  };
  /// What the book says of a collection, in order of time, but for what the entry `without` says.
  [[nodiscard]] virtual std::vector<ToldStage> stages(
      std::string_view collection, const std::optional<base::Uuid>& without) const = 0;
  /// Whether the file of that digest (SHA-256 in hex) was sent in and an entry may name it.
  [[nodiscard]] virtual bool knows_attachment(const std::string& digest) const = 0;
  /// Whether the rules in force say this finding now, by its key.
  [[nodiscard]] virtual bool stands(const std::string& finding) const = 0;
  /// What the rules in force find to be suspected in what a container holds.
  struct Suspicion {
    std::string code;   ///< as a form tells it: "chlorinated"
    std::string label;  ///< as people read it
    friend bool operator==(const Suspicion&, const Suspicion&) = default;
  };
  [[nodiscard]] virtual std::vector<Suspicion> suspected(std::string_view container) const = 0;
  /// What one entry told of a thing whose ids come into being by use.
  struct Told {
    base::Instant at;
    std::string kind;
    entries::Fields fields;  ///< with its corrections merged in
  };
  /// The entries that name such a thing, but for the entry `without` and those struck out.
  [[nodiscard]] virtual std::vector<Told> told(std::string_view thing_class, std::string_view id,
                                               const std::optional<base::Uuid>& without) const = 0;
  /// An entry of the book, as far as somebody may have to answer for it.
  struct Claim {
    bool own = false;       ///< recorded in the name of the person who sends
    bool verified = false;  ///< with the PIN
    bool open = false;      ///< without, and not answered for yet
  };
  /// None where the book has no entry of that number.
  [[nodiscard]] virtual std::optional<Claim> claim(std::uint64_t number) const = 0;
  /// What stands on a container's log, below zero too. The amount it is not counted by is there
  /// where the stream has a density.
  struct Log {
    bool by_volume = true;
    entries::Amount amount;
  };
  /// What an entry that closes a month is held against.
  struct MonthStanding {
    base::Instant over_at;        ///< the first moment after it, in the workshop's zone
    bool closed = false;          ///< by an entry that stands
    std::string digest;           ///< of its figures as they are now, SHA-256 in hex
    base::CivilMonth begins;      ///< the first month that can be closed
    std::uint64_t book_size = 0;  ///< entries in the book
  };
  /// The month as if the entry `without` were not there.
  [[nodiscard]] virtual MonthStanding month(base::CivilMonth month,
                                            const std::optional<base::Uuid>& without) const = 0;
  /// The digest of the month's figures by the book of that size; none where it was never so large.
  [[nodiscard]] virtual std::optional<std::string> digest_at(base::CivilMonth month,
                                                             std::uint64_t book_size) const = 0;
  /// A hold of an authority that stands.
  struct Hold {
    std::string authority;
    std::string scope;
    base::Instant placed_at;
  };
  /// Those that stand now, as if the entry `without` were not there.
  [[nodiscard]] virtual std::vector<Hold> holds(const std::optional<base::Uuid>& without) const = 0;
  /// As it is now; where the entry `before` changed it, as it was just before that. None where the
  /// log cannot tell: something went in unmeasured.
  [[nodiscard]] virtual std::optional<Log> log(std::string_view container,
                                               const std::optional<base::Uuid>& before) const = 0;
};

/// Content ready for the book.
struct Accepted {
  entries::Content content;  ///< fields and readings sorted by name, as read_leaf gives them back
  std::optional<std::int64_t> clock_offset_ms;
};

/// Reads and checks a whole submission: the members id, kind, occurred_at, fields, and where they
/// apply reason, corrects, device_seq, clock_offset_ms, attachments, confirmed (names of fields
/// whose unusual value the person has confirmed, "points/0/as_found_bar" inside a list). A
/// quantity is a JSON number in the field's own unit, or {"value": 2900, "unit": "psi"}, which is
/// converted and kept as read.
///
/// Either content or every fault at once, in this order: the members as listed in envelope.h,
/// unknown members, `confirmed`, the fields in the order of the form, unknown fields, groups of
/// which one must be given, and last the rules of the effect (rules.h), which judge only what could
/// be read. One value brings at most one refusal, and beside questions more of them.
///
/// A correction may carry attachments that its target's form takes; they stay its own.
///
/// A correction is merged with its target and checked by the target's form; pointers name the
/// correction's own fields. Values that stay as they were are not judged again; what no longer
/// applies after the change falls away. A list is replaced as a whole.
base::Result<Accepted, entries::Refusals> validate(const Catalog& catalog,
                                                   const base::Json& submission,
                                                   const Surroundings& surroundings);

/// Only `id` and nothing else is needed to find an entry that is already there; nullopt when the
/// submission has no readable id.
std::optional<base::Uuid> submission_id(const base::Json& submission);

/// Whether a submission says exactly what an entry of the book says, and nothing that would have
/// been refused, whatever has become since of the things it names. `today` answers for things and
/// targets as they are now.
bool says_the_same(const Catalog& catalog, const base::Json& submission,
                   const entries::Content& stored, const Surroundings& today);

/// The content of `original` with the fields of a correction laid over them. Id, kind, times and
/// the rest stay the original's. A strike-out leaves all as it is: ask `strikes_out` first.
entries::Content merged(const Catalog& catalog, const entries::Content& original,
                        const entries::Content& correction);
/// Whether a correction strikes its target out.
bool strikes_out(const entries::Content& correction);

/// What the content does to the state, by its definition's role mapping. Correction entries have
/// none of their own: take those of the merged target.
entries::Effects effects_of(const Catalog& catalog, const entries::Content& content);

/// "container/w1", "cylinder/n1": the things an entry is about, each once, sorted, for the book's
/// index; for a correction those of its merged target are added by the caller.
std::vector<std::string> subjects_of(const Catalog& catalog, const entries::Content& content);

}  // namespace benchwarden::forms
