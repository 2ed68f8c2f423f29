#pragma once

#include <filesystem>
#include <memory>

#include "workshop/ports.h"

namespace benchwarden::workshop {

/// A book open for work, with its tallies caught up and everything the use cases need.
class OpenBook {
 public:
  /// `definitions`, `clock` and `names` outlive it. Errors as Book::open and LiveState::start.
  static base::Result<std::unique_ptr<OpenBook>> open(const std::filesystem::path& folder,
                                                      const Definitions& definitions,
                                                      const base::Clock& clock,
                                                      const NameBook& names);
  OpenBook(const OpenBook&) = delete;
  OpenBook& operator=(const OpenBook&) = delete;
  ~OpenBook() = default;

  /// From here on the book is signed with this key.
  void sign_with(const seal::SigningKey& key) {
    signing_key_.emplace(key);
    ports_->signing_key = &*signing_key_;
  }
  [[nodiscard]] const Ports& ports() const { return *ports_; }

 private:
  OpenBook() = default;
  std::unique_ptr<book::Book> book_;
  std::unique_ptr<LiveState> live_;
  std::unique_ptr<PackShelf> packs_;
  Admission admission_;
  base::Gate costly_{{2, 8, std::chrono::milliseconds(5'000)}};
  std::optional<seal::SigningKey> signing_key_;
  std::unique_ptr<Ports> ports_;
};

}  // namespace benchwarden::workshop
