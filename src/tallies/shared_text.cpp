#include "tallies/shared_text.h"

#include <functional>
#include <mutex>
#include <unordered_set>

namespace benchwarden::tallies {
namespace {

struct TextHash {
  using is_transparent = void;
  std::size_t operator()(std::string_view text) const {
    return std::hash<std::string_view>()(text);
  }
};

const std::string& kept(std::string_view text) {
  static std::mutex mutex;
  static std::unordered_set<std::string, TextHash, std::equal_to<>> texts;  // none ever moves
  const std::lock_guard lock(mutex);
  const auto found = texts.find(text);
  return found != texts.end() ? *found : *texts.emplace(text).first;
}

}  // namespace

SharedText::SharedText(std::string_view text) : text_(&kept(text)) {}

}  // namespace benchwarden::tallies
