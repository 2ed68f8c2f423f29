#pragma once

#include <filesystem>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "entries/entry.h"
#include "forms/catalog.h"

namespace benchwarden::workshop {

/// The tables of an export, held to its entries: each line must be what its entry gives under the
/// columns that the heading names. Those of a kind that no form defines are left alone.
class TableChecks {
 public:
  TableChecks(const std::filesystem::path& export_folder, const forms::Catalog& catalog);
  /// The entries one after the other.
  void take(const entries::Entry& entry);
  void finish();

  /// By their path in the export.
  [[nodiscard]] const std::set<std::string>& held() const { return held_; }
  [[nodiscard]] const std::vector<std::string>& faults() const { return faults_; }
  /// Of columns other than those this program writes.
  [[nodiscard]] const std::vector<std::string>& notes() const { return notes_; }

 private:
  struct Table {
    std::string bytes;
    std::vector<std::string> columns;
    std::size_t at = 0;  ///< where the next line begins
    int line = 1;
    bool is_faulty = false;
  };
  void look_at(const forms::Definition& definition, const std::filesystem::path& export_folder);
  void fault(const std::string& kind, Table& table, const std::string& reason);

  std::map<std::string, Table, std::less<>> tables_;
  std::set<std::string> held_;
  std::vector<std::string> faults_;
  std::vector<std::string> notes_;
};

}  // namespace benchwarden::workshop
