// The leaf of an entry that our forms never made, as a book or an export from elsewhere may hold it
// under hashes that fit. What is read is written again byte for byte, its JSON is read, too, and it
// is folded on top of a book, or refused.
#include "base/json.h"
#include "entries/leaf.h"
#include "fuzz/targets.h"
#include "workshop/chain.h"
#include "workshop/fold.h"
#include "workshop/test_workshop.h"

namespace benchwarden::fuzz {
namespace {

/// Takes it for the next entry of a small book.
std::string fault_of_folded(entries::Entry entry) {
  static const workshop::TestWorkshop workshop;
  static const tallies::State state = *workshop.ports().live.view();
  const forms::Catalog& catalog = workshop.ports().definitions.catalog;
  entry.seq = state.size() + 1;
  tallies::State grown = state;
  const auto folded = workshop::fold(grown, entry, workshop.ports().book, catalog);
  const auto subjects =
      workshop::subjects_of(workshop.ports().book, catalog, entry.content, entry.seq);
  if (!folded) return folded.error().detail.empty() ? "not folded without a reason" : "";
  if (!subjects && entry.content.corrects) return "folded, and of nothing that can be told";
  const auto again = tallies::State::from_snapshot(grown.snapshot());
  return again && again->snapshot() == grown.snapshot() ? "" : "its tallies are read otherwise";
}

}  // namespace

std::string leaf_fault(std::string_view input) {
  auto entry = entries::read_leaf(input, workshop::real_definitions().catalog);
  if (!entry) return entry.error().detail.empty() ? "refused without a reason" : "";
  if (entries::write_leaf(*entry) != input) return "written again it is another leaf";
  const auto json = base::parse_json(base::write_json(entries::entry_json(*entry)));
  if (!json) return "its JSON is not read: " + json.error().detail;
  return fault_of_folded(*std::move(entry));
}

}  // namespace benchwarden::fuzz
