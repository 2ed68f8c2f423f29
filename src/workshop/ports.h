#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/clock.h"
#include "base/gate.h"
#include "base/zone.h"
#include "book/book.h"
#include "seal/ed25519.h"
#include "workshop/admission.h"
#include "workshop/definitions.h"
#include "workshop/live_state.h"
#include "workshop/pack_shelf.h"

namespace benchwarden::workshop {

/// The names and roles of persons live outside the book; whoever composes the program answers for
/// them.
class NameBook {
 public:
  NameBook() = default;
  NameBook(const NameBook&) = delete;
  NameBook& operator=(const NameBook&) = delete;
  virtual ~NameBook() = default;
  /// The name to show, or the id itself where no name is kept.
  [[nodiscard]] virtual std::string display_name(std::string_view person) const = 0;
  /// The role of a person who is active; none for anybody else.
  [[nodiscard]] virtual std::optional<std::string> active_role(std::string_view person) const = 0;
};

/// Who acts, as far as the steps need to know.
struct Actor {
  std::string person;
  std::string role;                     ///< "technician", "manager", "inspector"
  bool verified = true;                 ///< the PIN was checked for this act's session
  std::optional<std::string> device{};  ///< the paired one it comes from
};

/// What was shown by whoever sends a submission: a session, a paired device, or both.
struct Sender {
  std::optional<Actor> signed_in;
  std::optional<std::string> device;
  bool is_confirmed = true;  ///< the PIN was shown within the last minutes, where a session has one
};

/// Everything the use cases work with. Lives as long as the program.
struct Ports {
  book::Book& book;
  LiveState& live;
  const Definitions& definitions;
  const base::Clock& clock;
  const NameBook& names;
  Admission& admission;
  base::Gate& costly;  ///< for what reads much of the book: reports, and questions about the past
  PackShelf& packs;
  const seal::SigningKey* signing_key = nullptr;  ///< where nothing is to be signed
};

/// The workshop's zone as the register has it; UTC until a site is entered.
base::Zone zone_of(const tallies::State& state);
/// kUnavailable when this system does not know that zone: `zone_of` would cut days and months
/// otherwise than the register says.
base::Status<> check_zone(const tallies::State& state);
/// The day it is in that zone.
base::CivilDate today(const Ports& ports);

}  // namespace benchwarden::workshop
