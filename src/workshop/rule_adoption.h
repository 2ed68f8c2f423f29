#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "base/toml.h"
#include "tallies/state.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// What an entry says of a pack that was adopted.
struct AdoptedPack {
  std::string pack;
  std::string edition;
  std::string digest;  ///< SHA-256 of its text, in hex
  std::uint64_t seq = 0;
};
/// The text of a built-in pack that was adopted last.
std::optional<AdoptedPack> adopted_pack(const tallies::State& state, std::string_view id);
/// The workshop's own pack that lies on top of all others; none once it was withdrawn.
std::optional<AdoptedPack> local_pack(const tallies::State& state);
/// The entry that changed last which packs judge; 0 where none was adopted.
std::uint64_t newest_adoption(const tallies::State& state);

/// Keeps the text of every built-in pack in force in the book, with an entry that says so, where
/// the book has not got it yet: at the start, and when the register names another pack. Nothing
/// while no site is entered. Then looks at the packs in force, the workshop's own included.
/// kDamaged, with file, line and reason: one of them cannot be read; kUnavailable: the disk fails.
base::Status<> adopt_packs(const Ports& ports);

/// The same after the register changed, of a site that names a pack. What fails is made up for at
/// the next such change or start.
void follow_register(const Ports& ports);

/// A pack of the workshop's own: in force from now on, nothing of it with its faults, or an error
/// of the book. `text` is TOML; an empty one withdraws the pack in force. Its name must be that of
/// no built-in pack. kConflict: there is none to withdraw.
using LocalPackOutcome = std::variant<book::Receipt, base::FileFaults, base::Error>;
LocalPackOutcome put_local_pack(const Ports& ports, const Actor& actor, const std::string& text);

/// Every fault of a pack of the workshop's own, each with its line; "local pack" is the file's
/// name.
base::Result<rules::RulePack, base::FileFaults> read_local_pack(const Definitions& definitions,
                                                                const std::string& text,
                                                                const std::string& file);

}  // namespace benchwarden::workshop
