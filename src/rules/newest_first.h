#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "findings/finding.h"
#include "rules/scene.h"

namespace benchwarden::rules {

/// What entries of some kinds told of a subject, the newest first, as far as it stands and had
/// happened by now. What is about no thing is asked for with an empty subject. Found one by one:
/// who stops early has not passed through the rest. To be walked once.
class NewestFirst {
 public:
  NewestFirst(const Scene& scene, const findings::Subject& subject,
              const std::vector<std::string>& kinds);
  /// As far as it had happened by then.
  NewestFirst(const Scene& scene, const findings::Subject& subject,
              const std::vector<std::string>& kinds, base::Instant until);

  /// The next older one; nullptr after the oldest.
  const tallies::Record* next();

  class Iterator {
   public:
    explicit Iterator(NewestFirst* of) : of_(of), record_(of == nullptr ? nullptr : of->next()) {}
    const tallies::Record* operator*() const { return record_; }
    Iterator& operator++() {
      record_ = of_->next();
      return *this;
    }
    bool operator!=(const Iterator& end) const { return record_ != end.record_; }

   private:
    NewestFirst* of_;
    const tallies::Record* record_;
  };
  Iterator begin() { return Iterator(this); }
  static Iterator end() { return Iterator(nullptr); }

 private:
  /// The records of one kind, as far as they are still to come.
  struct Source {
    const tallies::RecordList* records;
    const tallies::RecordList::Places* places;
    std::size_t left;
    [[nodiscard]] const tallies::Record& newest() const { return (*records)[(*places)[left - 1]]; }
  };
  std::vector<Source> sources_;
};

using ToldOf = std::vector<const tallies::Record*>;
/// All of them at once.
ToldOf told_of(const Scene& scene, const findings::Subject& subject,
               const std::vector<std::string>& kinds);

}  // namespace benchwarden::rules
