#include "book/check_export.h"

#include <fstream>
#include <utility>

#include "base/sha256.h"
#include "book/merkle.h"

namespace benchwarden::book {
namespace {

class Checker {
 public:
  Checker(const std::filesystem::path& folder, const entries::Vocabulary& vocabulary,
          const ExportWatcher& watch)
      : folder_(folder), vocabulary_(vocabulary), watch_(watch) {}

  base::Result<CheckedExport, ExportFaults> run() {
    check_entries();
    check_head();
    for (const std::string& name : checked_.attachments) check_attachment(name);
    check_digests();
    if (!faults_.empty()) return std::move(faults_);
    return std::move(checked_);
  }

 private:
  void fault(std::string_view file, const std::string& reason) {
    faults_.push_back(std::string(file) + ": " + reason);
  }

  void check_entries() {
    const auto walked = each_line(folder_, [&](std::uint64_t line, std::string_view leaf) {
      check_entry(line, leaf);
      return base::Status<>(base::Done{});
    });
    if (!walked) fault(kExportedEntries, walked.error().detail);
  }

  void check_entry(std::uint64_t line, std::string_view leaf) {
    edge_.append(hash_leaf(leaf));
    const std::string place = std::string(kExportedEntries) + ":" + std::to_string(line);
    const auto entry = entries::read_leaf(leaf, vocabulary_);
    watch_(edge_, entry ? &*entry : nullptr);
    if (!entry) {
      fault(place, entry.error().detail);
    } else if (entry->seq != line) {
      fault(place, "is entry " + std::to_string(entry->seq) + "; entry " + std::to_string(line) +
                       " belongs here");
    } else {
      const auto& named = entry->content.attachments;
      checked_.attachments.insert(named.begin(), named.end());
    }
  }

  void check_head() {
    const auto text = read_exported(folder_ / kExportedHead);
    const auto head = text ? parse_exported_head(*text) : std::nullopt;
    if (!head) {
      fault(kExportedHead,
            text ? "is no head: 'size' and 'root', a line each, are needed" : text.error().detail);
      return;
    }
    checked_.head = *head;
    if (edge_.size() != head->size) {
      fault(kExportedEntries, "holds " + std::to_string(edge_.size()) + " entries; by head.txt " +
                                  std::to_string(head->size) + " are needed");
    } else if (edge_.root() != head->root) {
      fault(kExportedEntries, "gives the root " + base::to_hex(edge_.root()) + "; by head.txt " +
                                  base::to_hex(head->root) + " is needed");
    }
  }

  void check_attachment(const std::string& name) {
    const std::string place = std::string(kExportedAttachments) + "/" + name;
    const auto bytes = read_exported(folder_ / place);
    if (!bytes) {
      fault(place, "is missing or cannot be read; an entry names it");
    } else if (base::to_hex(base::sha256(*bytes)) != name) {
      fault(place, "does not match its digest");
    }
  }

  void check_digests() {
    const auto said = read_exported(folder_ / kExportedDigests);
    if (!said) return fault(kExportedDigests, said.error().detail);
    const auto found = digests_below(folder_);
    if (!found) return fault(kExportedDigests, found.error().detail);
    for (const auto& [name, digest] : *found) {
      checked_.files.insert(name);
      const bool listed = said->find(format_digests({{name, digest}})) != std::string::npos;
      if (!listed) fault(name, "is not what digests.txt says of it");
    }
    if (format_digests(*found) != *said && faults_.empty()) {
      fault(kExportedDigests, "names other files than there are");
    }
  }

  const std::filesystem::path& folder_;
  const entries::Vocabulary& vocabulary_;
  const ExportWatcher& watch_;
  TreeEdge edge_;
  CheckedExport checked_;
  ExportFaults faults_;
};

}  // namespace

base::Result<CheckedExport, ExportFaults> check_export(const std::filesystem::path& folder,
                                                       const entries::Vocabulary& vocabulary,
                                                       const ExportWatcher& watch) {
  return Checker(folder, vocabulary, watch).run();
}

base::Status<> each_line(
    const std::filesystem::path& folder,
    const std::function<base::Status<>(std::uint64_t, std::string_view)>& visit) {
  std::ifstream stream(folder / kExportedEntries, std::ios::binary);
  if (!stream) return base::Error{base::ErrorCode::kUnavailable, "cannot be opened"};
  std::string line;
  for (std::uint64_t number = 1; std::getline(stream, line); ++number) {
    if (stream.eof()) {
      return base::Error{base::ErrorCode::kDamaged,
                         "line " + std::to_string(number) + " has no end: the file is cut off"};
    }
    auto visited = visit(number, line);
    if (!visited) return visited;
  }
  if (stream.bad()) return base::Error{base::ErrorCode::kUnavailable, "cannot be read"};
  return base::Done{};
}

}  // namespace benchwarden::book
