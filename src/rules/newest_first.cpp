#include "rules/newest_first.h"

#include "rules/showing.h"

namespace benchwarden::rules {

using tallies::Record;

NewestFirst::NewestFirst(const Scene& scene, const findings::Subject& subject,
                         const std::vector<std::string>& kinds)
    : NewestFirst(scene, subject, kinds, scene.now()) {}

NewestFirst::NewestFirst(const Scene& scene, const findings::Subject& subject,
                         const std::vector<std::string>& kinds, base::Instant until) {
  for (const std::string& kind : kinds) {
    // What is about no thing lies in a list by kind.
    const std::string& id = subject.thing_class.empty() ? kind : subject.id;
    const tallies::RecordList& records = scene.state().records(subject.thing_class, id);
    const auto& places = records.of_kind(kind);
    sources_.push_back({&records, &places, records.count_before(places, just_after(until))});
  }
}

const Record* NewestFirst::next() {
  for (;;) {
    Source* from = nullptr;
    for (Source& source : sources_) {
      if (source.left == 0) continue;
      if (from == nullptr || comes_before(from->newest(), source.newest())) from = &source;
    }
    if (from == nullptr) return nullptr;
    const Record& newest = from->newest();
    --from->left;
    if (!newest.struck) return &newest;
  }
}

ToldOf told_of(const Scene& scene, const findings::Subject& subject,
               const std::vector<std::string>& kinds) {
  ToldOf found;
  for (const Record* record : NewestFirst(scene, subject, kinds)) found.push_back(record);
  return found;
}

}  // namespace benchwarden::rules
