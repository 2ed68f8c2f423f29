#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "base/result.h"
#include "book/book.h"
#include "rules/rule_book.h"

namespace benchwarden::workshop {

/// Rule packs by the SHA-256 of their text: those of the program, and those the book keeps. A text
/// is read once, and packs are stacked once. Safe from many threads.
class PackShelf {
 public:
  using Digests = std::vector<std::string>;  ///< in hex

  /// `built_in` and `book` outlive it.
  PackShelf(const std::vector<rules::RulePack>& built_in, const book::Book& book)
      : built_in_(built_in), book_(book) {}
  PackShelf(const PackShelf&) = delete;
  PackShelf& operator=(const PackShelf&) = delete;
  ~PackShelf() = default;

  /// nullptr where the program has no pack of this name.
  [[nodiscard]] const rules::RulePack* built_in(std::string_view id) const;
  /// kDamaged where the book's text is no pack, with file, line and reason of every fault;
  /// kUnavailable: the disk fails.
  base::Result<const rules::RulePack*> pack(const std::string& digest);
  /// The packs one on top of the other, the last one uppermost. Errors as `pack`.
  base::Result<std::shared_ptr<const rules::RuleBook>> stacked(const Digests& digests);

 private:
  /// How many stacks are kept: one is in force, others are asked for by looks into the past.
  static constexpr std::size_t kStacksMax = 8;
  base::Result<const rules::RulePack*> find(const std::string& digest);

  const std::vector<rules::RulePack>& built_in_;
  const book::Book& book_;
  std::mutex mutex_;
  std::map<std::string, std::unique_ptr<const rules::RulePack>, std::less<>> kept_;
  std::map<Digests, std::shared_ptr<const rules::RuleBook>> stacks_;
};

}  // namespace benchwarden::workshop
