// A file of an export with mistakes in it (edited_file.h), under digests and a head that fit it: as
// somebody writes an export by hand. It is imported, and then holds what was in it, or every fault
// has words and nothing is left behind.
#include <fstream>

#include "book/export_files.h"
#include "book/merkle.h"
#include "fuzz/edited_file.h"
#include "fuzz/targets.h"
#include "workshop/export_book.h"
#include "workshop/form_entries.h"
#include "workshop/import_book.h"

namespace benchwarden::fuzz {
namespace {

namespace fs = std::filesystem;

std::string bytes_at(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

void put(const fs::path& file, const std::string& bytes) {
  std::ofstream(file, std::ios::binary | std::ios::trunc) << bytes;
}

/// The export that is changed, and the names of its files.
struct Exported {
  testing::TemporaryFolder place;
  std::vector<std::string> names;
  [[nodiscard]] fs::path folder() const { return place.path() / "out"; }
};

const Exported& exported() {
  static const Exported& kept = []() -> const Exported& {
    static Exported made;
    workshop::TestWorkshop workshop;
    workshop::FormEntries(workshop, 1).send(6);
    const auto done =
        workshop::export_book(workshop.folder(), made.folder(), workshop::real_definitions());
    if (!done) ADD_FAILURE() << done.error().detail;
    const auto digests = book::digests_below(made.folder());
    for (const auto& one : *digests) made.names.push_back(one.first);
    return made;
  }();
  return kept;
}

/// What follows from the entries, as their new writer would have it.
void make_fit(const fs::path& folder) {
  book::TreeEdge edge;
  std::vector<std::string> leaves = lines_of(bytes_at(folder / book::kExportedEntries));
  if (!leaves.empty() && leaves.back().empty()) leaves.pop_back();
  for (const std::string& leaf : leaves) edge.append(book::hash_leaf(leaf));
  put(folder / book::kExportedHead, book::exported_head({edge.size(), edge.root()}));
  fs::remove(folder / book::kExportedCheckpoint);
}

void change_export(const fs::path& folder, std::string_view input) {
  const std::string name = chosen_name(input, exported().names);
  put(folder / name, edited(bytes_at(folder / name), input));
  if (name == book::kExportedEntries) make_fit(folder);
  const auto digests = book::digests_below(folder);
  if (digests) put(folder / book::kExportedDigests, book::format_digests(*digests));
}

std::string fault_of(const book::ExportFaults& faults) {
  if (faults.empty()) return "refused without a fault";
  for (const std::string& fault : faults) {
    if (fault.find(": ") == std::string::npos) return "a fault of no file: " + fault;
  }
  return "";
}

}  // namespace

std::string export_fault(std::string_view input) {
  const testing::TemporaryFolder place;
  const fs::path from = place.path() / "out";
  const fs::path to = place.path() / "anew";
  fs::copy(exported().folder(), from, fs::copy_options::recursive);
  change_export(from, input);
  static const testing::SettableClock clock;
  const auto outcome = workshop::import_book(from, to, workshop::real_definitions(), clock);
  if (const auto* imported = std::get_if<workshop::ImportedBook>(&outcome)) {
    const auto head = book::parse_exported_head(bytes_at(from / book::kExportedHead));
    return head && head->size == imported->entries && base::to_hex(head->root) == imported->root_hex
               ? ""
               : "imported as another book";
  }
  if (fs::exists(to)) return "refused, and something is left behind";
  if (const auto* error = std::get_if<base::Error>(&outcome)) {
    return error->detail.empty() ? "refused without a reason" : "";
  }
  return fault_of(*std::get_if<book::ExportFaults>(&outcome));
}

}  // namespace benchwarden::fuzz
