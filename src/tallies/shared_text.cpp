#include "tallies/shared_text.h"

#include <array>
#include <cassert>
#include <functional>
#include <memory>
#include <mutex>
#include <string>
#include <unordered_map>
#include <vector>

namespace benchwarden::tallies {
namespace {

struct TextHash {
  using is_transparent = void;
  std::size_t operator()(std::string_view text) const {
    return std::hash<std::string_view>()(text);
  }
};

constexpr std::size_t kChunk = 4096;
constexpr std::size_t kChunks = std::size_t{1} << 18U;  // a thousand million texts

/// The texts by their number, number 0 the empty one. A chunk neither moves nor goes, so reading
/// takes no lock: who was handed a number was handed what stands there with it.
class Texts {
 public:
  std::uint32_t number_of(std::string_view text) {
    if (text.empty()) return 0;
    const std::lock_guard lock(mutex_);
    const auto found = numbers_.find(text);
    if (found != numbers_.end()) return found->second;
    const auto number = static_cast<std::uint32_t>(numbers_.size() + 1);
    assert(number < kChunk * kChunks);
    make_place(number);  // first: where memory ends here, the text stays unknown
    const auto kept = numbers_.emplace(text, number).first;
    (*places_[number / kChunk])[number % kChunk] = &kept->first;
    return number;
  }
  [[nodiscard]] std::string_view text(std::uint32_t number) const {
    if (number == 0) return {};
    return *(*places_[number / kChunk])[number % kChunk];
  }

 private:
  using Chunk = std::array<const std::string*, kChunk>;

  void make_place(std::uint32_t number) {
    if (places_[number / kChunk] != nullptr) return;
    chunks_.push_back(std::make_unique<Chunk>());
    places_[number / kChunk] = chunks_.back().get();
  }

  std::mutex mutex_;
  std::unordered_map<std::string, std::uint32_t, TextHash, std::equal_to<>> numbers_;
  std::vector<std::unique_ptr<Chunk>> chunks_;
  // Zero from the start, so that the system gives memory for what is used of it only.
  static inline std::array<Chunk*, kChunks> places_{};
};

Texts& texts() {
  static Texts all;
  return all;
}

}  // namespace

SharedText::SharedText(std::string_view text) : number_(texts().number_of(text)) {}

SharedText::operator std::string_view() const { return texts().text(number_); }

}  // namespace benchwarden::tallies
