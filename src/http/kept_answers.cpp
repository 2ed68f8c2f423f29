#include "http/kept_answers.h"

#include <memory>
#include <utility>

namespace benchwarden::http {

Response KeptAnswers::answer(const std::string& path, std::uint64_t book_size, Time now,
                             const Make& make) {
  {
    const std::lock_guard lock(mutex_);
    const auto found = kept_.find(path);
    if (found != kept_.end() && found->second.book_size == book_size &&
        now - found->second.since < kKept) {
      return found->second.response;
    }
  }
  Response made = make();
  if (made.status != 200) return made;
  made.body = std::make_shared<const std::string>(body_bytes(made));  // shared, not copied
  const std::lock_guard lock(mutex_);
  if (kept_.size() >= kPathsMax && !kept_.contains(path)) kept_.clear();
  kept_[path] = {book_size, now, made};
  return made;
}

}  // namespace benchwarden::http
