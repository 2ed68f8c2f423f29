#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/timestamp.h"
#include "entries/effect.h"

namespace benchwarden::tallies {

class ByteReader;
class ByteWriter;

/// A thing under care as it stands now.
struct Thing {
  bool retired = false;
  bool in_service = true;         ///< as the last look at it that decided left it
  std::uint64_t added_seq = 0;    ///< 0 when a correction took the adding entry away
  std::uint64_t changed_seq = 0;  ///< of the last register entry about it
  entries::Fields attributes;     ///< merged over its entries, in the order they first appeared
  friend bool operator==(const Thing&, const Thing&) = default;
};

using Things = std::map<std::string, Thing, std::less<>>;

/// The things under care, from the register entries in order of the book. A correction of such an
/// entry acts at the place of its target: the thing is made again from all that is known of it.
class Register {
 public:
  void post(base::Instant at, std::uint64_t seq, const entries::Changes& changes);
  /// What the entry `seq` said about this thing is no more.
  void withdraw(std::uint64_t seq, std::string_view thing_class, std::string_view id);
  void set_in_service(std::string_view thing_class, std::string_view id, bool in_service);

  [[nodiscard]] const Things& things(std::string_view thing_class) const;
  [[nodiscard]] const Thing* thing(std::string_view thing_class, std::string_view id) const;
  [[nodiscard]] const std::map<std::string, Things, std::less<>>& classes() const {
    return things_;
  }
  /// When the first entry about the thing occurred; none for an unknown one.
  [[nodiscard]] std::optional<base::Instant> entered_at(std::string_view thing_class,
                                                        std::string_view id) const;
  /// Since when an attribute has its value: when the entry occurred that gave it, the first where
  /// several in a row gave the same. None where it was never entered.
  [[nodiscard]] std::optional<base::Instant> holds_since(std::string_view thing_class,
                                                         std::string_view id,
                                                         std::string_view attribute) const;

  /// Since when it is retired: when the entry occurred that retired it. None where it is in use.
  [[nodiscard]] std::optional<base::Instant> retired_since(std::string_view thing_class,
                                                           std::string_view id) const;

  /// The thing by what its entries say that occurred by then, in order of the book. What its first
  /// entry says holds from the beginning, however it is dated. None for an unknown one.
  [[nodiscard]] std::optional<Thing> thing_at(std::string_view thing_class, std::string_view id,
                                              base::Instant at) const;
  /// When the entries about it occurred, in order of the book.
  [[nodiscard]] std::vector<base::Instant> said_at(std::string_view thing_class,
                                                   std::string_view id) const;

  void write(ByteWriter& writer) const;
  static Register read(ByteReader& reader);

 private:
  /// What one entry said about a thing.
  struct Step {
    base::Instant at;
    std::uint64_t seq = 0;
    entries::RegisterAct act = entries::RegisterAct::kAdded;
    entries::Fields attributes;
  };
  using Key = std::pair<std::string, std::string>;  ///< class, id

  static Thing made_from(const std::vector<Step>& steps);
  void make_again(const Key& key);

  std::map<std::string, Things, std::less<>> things_;
  std::map<Key, std::vector<Step>> steps_;  ///< in order of seq; never an empty list
};

}  // namespace benchwarden::tallies
