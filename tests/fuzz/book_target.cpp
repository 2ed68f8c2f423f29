// A book that somebody changed behind our back. Each line of an input is one change: "file", an
// offset and bytes in hex, or else a column of an entry, its number and what is to stand there: a
// text for leaf and kind, hex for all others. Whatever comes out of that is read, or its fault is
// named; a book in which verify finds nothing says what it said.
#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "base/sha256.h"
#include "book/read_book.h"
#include "entries/leaf.h"
#include "fuzz/edited_file.h"
#include "fuzz/targets.h"
#include "sqlite/database.h"
#include "workshop/form_entries.h"
#include "workshop/upkeep.h"

namespace benchwarden::fuzz {
namespace {

namespace fs = std::filesystem;
using workshop::TestWorkshop;

constexpr std::size_t kChangesMax = 8;

/// A book at rest.
struct Original {
  testing::TemporaryFolder folder;
  std::vector<std::string> leaves;
};

base::Result<std::vector<std::string>> leaves_in(const fs::path& folder) {
  auto book = book::ReadBook::open(folder, workshop::real_definitions().catalog);
  if (!book) return book.error();
  std::vector<std::string> leaves;
  const auto walked = book->each([&](const entries::Entry& entry) -> base::Status<> {
    leaves.push_back(entries::write_leaf(entry));
    return base::Done{};
  });
  if (!walked) return walked.error();
  return leaves;
}

const Original& original() {
  static const Original& kept = []() -> const Original& {
    static Original made;
    TestWorkshop workshop;
    workshop::FormEntries(workshop, 1).send(6);
    workshop.close();
    fs::copy(workshop.folder(), made.folder.path(), fs::copy_options::recursive);
    made.leaves = *leaves_in(made.folder.path());
    return made;
  }();
  return kept;
}

bool is_hex(const std::string& text) {
  return text.size() % 2 == 0 &&
         text.find_first_not_of("0123456789abcdefABCDEF") == std::string::npos;
}

/// "file 100 00ff"; false when the line is no such change.
bool change_file(const fs::path& file, const std::string& line) {
  std::istringstream words(line);
  std::string what;
  std::uint64_t offset = 0;
  std::string hex;
  words >> what >> offset >> hex;
  if (what != "file") return false;
  const std::uint64_t size = fs::file_size(file);
  std::fstream stream(file, std::ios::binary | std::ios::in | std::ios::out);
  stream.seekp(static_cast<std::streamoff>(offset % size));
  for (std::size_t i = 0; is_hex(hex) && i < hex.size() && offset % size + i / 2 < size; i += 2) {
    stream.put(static_cast<char>(std::strtoul(hex.substr(i, 2).c_str(), nullptr, 16)));
  }
  return true;
}

/// "kind 3 briefing" or "root 3 00ff", as SQL.
std::string statement(const std::string& line) {
  static const std::vector<std::string> kColumns{
      "leaf", "leaf_hash", "interior", "root", "subjects_hash", "kind", "id", "corrects"};
  std::istringstream words(line);
  std::string column;
  std::uint64_t seq = 0;
  words >> column >> seq;
  column = chosen_name(column, kColumns);
  std::string value;
  std::getline(words >> std::ws, value);
  if (column == "leaf" || column == "kind") {
    value = base::to_hex({reinterpret_cast<const std::uint8_t*>(value.data()), value.size()});
  } else if (!is_hex(value)) {
    value.clear();
  }
  value = "x'" + value + "'";
  if (column == "kind") value = "CAST(" + value + " AS TEXT)";
  return "UPDATE entry SET " + column + " = " + value +
         " WHERE seq = " + std::to_string(1 + (seq - 1) % original().leaves.size());
}

/// Past the trigger, and leaving no trace of that, as somebody would who knows the file. What
/// SQLite refuses stays as it was.
void change_rows(const fs::path& file, const std::vector<std::string>& lines) {
  auto database = sqlite::Database::open(file.string(), sqlite::Mode::kReadWriteCreate);
  if (!database) return;
  std::string guard;
  {
    auto query = database->prepare("SELECT sql FROM sqlite_schema WHERE name = 'entry_no_update'");
    if (!query) return;
    const auto row = query->step();
    if (!row || !*row) return;
    guard = query->text(0);
  }
  static_cast<void>(database->execute("DROP TRIGGER entry_no_update"));
  for (const std::string& line : lines) static_cast<void>(database->execute(statement(line)));
  static_cast<void>(database->execute(guard));
}

void change_book(const fs::path& folder, std::string_view input) {
  std::vector<std::string> lines = lines_of(input);
  lines.resize(std::min(lines.size(), kChangesMax));
  std::vector<std::string> rows;
  for (const std::string& line : lines) {
    if (!change_file(folder / "book.db", line)) rows.push_back(line);
  }
  change_rows(folder / "book.db", rows);
}

std::string read_through(const fs::path& folder) {
  const auto verified = workshop::verify_book(folder, workshop::real_definitions());
  if (!verified) return verified.error().detail.empty() ? "no reason" : "";
  for (const std::string& fault : verified->faults) {
    if (fault.empty()) return "a fault without words";
  }
  const auto leaves = leaves_in(folder);
  if (!verified->faults.empty()) return "";
  return leaves.ok() && *leaves == original().leaves ? "" : "verify found nothing in another book";
}

/// A start on it: refused, or the live state comes out of it.
void open_book(const fs::path& folder) {
  static const testing::SettableClock clock;
  static const workshop::FewNames names;
  static_cast<void>(
      workshop::OpenBook::open(folder, workshop::real_definitions(), clock, names).ok());
}

}  // namespace

std::string book_fault(std::string_view input) {
  const testing::TemporaryFolder copy;
  fs::copy(original().folder.path(), copy.path(),
           fs::copy_options::recursive | fs::copy_options::overwrite_existing);
  change_book(copy.path(), input);
  const std::string fault = read_through(copy.path());
  open_book(copy.path());
  return fault;
}

}  // namespace benchwarden::fuzz
