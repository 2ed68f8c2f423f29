#pragma once

#include <functional>
#include <optional>
#include <string>

#include "base/json.h"
#include "base/result.h"
#include "workshop/fold.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// What is asked of the list of entries. Dates are days of the workshop's zone, both included.
struct EntryQuery {
  std::optional<std::string> kind;
  std::optional<std::string> subject;  ///< "container/w1"
  std::optional<std::string> person;   ///< who recorded it
  std::optional<base::CivilDate> from;
  std::optional<base::CivilDate> to;
  std::function<bool(std::string_view kind)> shows = {};  ///< what may be seen; empty: all
  std::uint64_t after_seq = 0;
  std::size_t limit = 50;
};

/// In book order, as many as wanted. `next_after`: the last one's number, where another follows
/// that is wanted and may be seen; it tells nothing of those that are not.
struct EntryPage {
  base::JsonArray entries;
  std::optional<std::uint64_t> next_after;
};
base::Result<EntryPage> list_entries(const Ports& ports, const EntryQuery& query);
base::Result<base::Json> show_entry(const Ports& ports, const base::Uuid& id);

/// What decides who may see an entry: its kind, of a correction that of what it corrects, and of an
/// issued report its name.
struct EntryNature {
  std::string kind;
  std::optional<std::string> report;
};
base::Result<EntryNature> nature_of(const Ports& ports, const base::Uuid& id);

/// Entries that were recorded without a PIN and for which nobody has answered yet, in book order:
/// to who records, their own; to managers and inspectors, everybody's. At most the first 500; the
/// others follow once these are answered for.
base::Result<base::JsonArray> list_unconfirmed(const Ports& ports, const Actor& actor);

/// The entry with its leaf hash, what its person answered for it, and the corrections that name it.
base::Result<base::Json> entry_with_corrections(const Ports& ports, const entries::Entry& entry);

/// The register as it is now, or from a viewpoint when one is given. kNotFound, naming the classes,
/// for a class that no register has. kUnavailable: a viewpoint, and too many such questions are
/// being answered.
base::Result<base::Json> list_things(const Ports& ports, std::string_view thing_class,
                                     const std::optional<Viewpoint>& view);
base::Result<base::Json> show_thing(const Ports& ports, std::string_view thing_class,
                                    std::string_view id, const std::optional<Viewpoint>& view);

/// Every container's level; from a viewpoint when one is given, else as it is now. kUnavailable: a
/// viewpoint, and too many such questions are being answered.
base::Result<base::Json> show_levels(const Ports& ports, const std::optional<Viewpoint>& view);

/// Every check of one thing in order of time, corrections beside originals, with what follows from
/// its readings; of a tool or gauge also when it leaves its class.
base::Result<base::Json> show_history(const Ports& ports, std::string_view thing_class,
                                      std::string_view id);

}  // namespace benchwarden::workshop
