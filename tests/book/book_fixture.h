#pragma once

#include <gtest/gtest.h>

#include <atomic>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "base/clock.h"
#include "book/book.h"
#include "book/verify.h"
#include "entries/leaf.h"
#include "sqlite/temporary_folder.h"

namespace benchwarden::testing {

class SmallVocabulary : public entries::Vocabulary {
 public:
  [[nodiscard]] std::optional<entries::FieldMeaning> meaning(std::string_view field) const override;
};

/// Stands still unless it is set.
class SettableClock : public base::Clock {
 public:
  [[nodiscard]] base::Instant now() const override { return {ms_.load()}; }
  void set(base::Instant instant) { ms_.store(instant.ms); }

 private:
  std::atomic<std::int64_t> ms_{1'795'000'000'000};
};

/// A drain of `number` mL into container w1, with an id made from `number`.
book::Draft drain(std::uint64_t number);
base::Uuid id_of(std::uint64_t number);
/// The number a drain was made from.
std::uint64_t number_of(const entries::Entry& entry);

/// Runs SQL on book.db past our code. The triggers are taken out before and put back after, as
/// somebody would who wants to leave no trace.
void tamper(const std::filesystem::path& folder, const std::string& sql);
/// Runs SQL on book.db as it is; false when it is refused.
bool run_sql(const std::filesystem::path& folder, const std::string& sql);
std::int64_t sql_number(const std::filesystem::path& folder, const std::string& sql);

/// A book in a folder of its own.
class BookTest : public ::testing::Test {
 protected:
  void open();
  void close() { book_.reset(); }
  base::Result<std::unique_ptr<book::Book>> try_open();
  /// Appends drains number `from` to `to`, each as a group of its own; each must succeed.
  void append(std::uint64_t from, std::uint64_t to);
  book::VerifyReport verified();
  [[nodiscard]] const std::filesystem::path& folder() const { return folder_.path(); }

  TemporaryFolder folder_;
  SmallVocabulary vocabulary_;
  SettableClock clock_;
  std::unique_ptr<book::Book> book_;
};

}  // namespace benchwarden::testing
