#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <mutex>
#include <string>

#include "http/message.h"

namespace benchwarden::http {

/// Answers that every caller gets alike, kept while the book stays as it is and for a second at
/// most: what they say besides, names and the time, may be as old as that. Every tablet of a shop
/// asks for the same few, again and again. Safe to use from many threads.
class KeptAnswers {
 public:
  using Time = std::chrono::steady_clock::time_point;
  using Make = std::function<Response()>;

  /// The one kept under this path for a book of this size; else a new one, which is kept when it is
  /// a 200. `book_size` is that of the tallies before `make` reads them: they may have grown by
  /// then, and the answer is never older than its size says.
  Response answer(const std::string& path, std::uint64_t book_size, Time now, const Make& make);

  static constexpr std::chrono::milliseconds kKept{1000};
  static constexpr std::size_t kPathsMax = 64;  ///< at a few kilobytes each

 private:
  struct Kept {
    std::uint64_t book_size = 0;
    Time since;
    Response response;
  };
  std::mutex mutex_;
  std::map<std::string, Kept> kept_;
};

}  // namespace benchwarden::http
