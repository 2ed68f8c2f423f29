#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/timestamp.h"
#include "tallies/claims.h"
#include "tallies/collections.h"
#include "tallies/devices.h"
#include "tallies/flow.h"
#include "tallies/posting.h"
#include "tallies/records.h"
#include "tallies/register.h"
#include "tallies/timeline.h"

namespace benchwarden::tallies {

/// Raised when the same entries would fold to another state than before; a snapshot of another
/// version is dropped and the book refolded.
inline constexpr int kFoldVersion = 6;

/// Entries that were recorded later than this after they occurred are kept in `lagging`: one hour,
/// since less is the ordinary time between doing and entering.
inline constexpr std::int64_t kLagKeptMs = 3'600'000;

/// What was unusual about an entry, kept by its number with the time it occurred.
struct Mark {
  base::Instant occurred_at;
  base::Instant recorded_at;  ///< for corrections: when the correction was recorded
  std::uint64_t seq = 0;
  std::uint64_t corrected_by = 0;  ///< for corrections: the correcting entry
  friend bool operator==(const Mark&, const Mark&) = default;
};

/// A pure, deterministic fold of the book. Equal postings and amendments in equal order give equal
/// snapshots, byte for byte. Every entry of the book comes once, in order, as a Posting or an
/// Amendment (one that does nothing as a Posting without effects).
class State {
 public:
  void apply(const Posting& posting);
  void apply(const Amendment& amendment);

  /// The number of the last entry folded, which is how many there were.
  [[nodiscard]] std::uint64_t size() const { return size_; }
  [[nodiscard]] const Register& under_care() const { return under_care_; }
  [[nodiscard]] const Things& things(std::string_view thing_class) const {
    return under_care_.things(thing_class);
  }
  [[nodiscard]] const Thing* thing(std::string_view thing_class, std::string_view id) const {
    return under_care_.thing(thing_class, id);
  }
  /// Never fails: a container without events has an empty timeline.
  [[nodiscard]] const Timeline& timeline(std::string_view container) const {
    return flow_.timeline(container);
  }
  /// What checks and notes tell, in order of time; those struck out stay, marked so.
  [[nodiscard]] const Records& records() const { return records_; }
  [[nodiscard]] const RecordList& records(std::string_view thing_class, std::string_view id) const {
    return records_.about(thing_class, id);
  }
  /// Made on asking: hold the answer, do not ask in a loop.
  [[nodiscard]] Collections::ById collections() const { return collections_.all(); }
  [[nodiscard]] CollectionStages collection(std::string_view id) const {
    return collections_.stages(id);
  }
  [[nodiscard]] const std::vector<Mark>& corrected() const { return corrected_; }
  /// What was recorded without a PIN, corrections too.
  [[nodiscard]] const Claims& claims() const { return claims_; }
  /// What came from which paired device, in its own numbers.
  [[nodiscard]] const Devices::ById& devices() const { return devices_.all(); }
  /// Which of these are late (another month of the workshop's zone) is for the reader to say.
  [[nodiscard]] const std::vector<Mark>& lagging() const { return lagging_; }

  [[nodiscard]] std::string snapshot() const;
  /// kDamaged for anything but the bytes of a snapshot of this fold version.
  static base::Result<State> from_snapshot(std::string_view bytes);

 private:
  void change_register(const Posting& posting);
  void amend_register(const Amendment& amendment, const entries::Effects& after);
  void amend_records(const Amendment& amendment, const entries::Effects& after);
  void amend_claims(const Amendment& amendment, const entries::Effects& after);
  void amend_collections(const Amendment& amendment, const entries::Effects& after);
  void decide_service(std::string_view thing_class, std::string_view id);

  std::uint64_t size_ = 0;
  Register under_care_;
  Flow flow_;
  Records records_;
  Collections collections_;
  Devices devices_;
  Claims claims_;
  std::vector<Mark> corrected_;
  std::vector<Mark> lagging_;
};

}  // namespace benchwarden::tallies
