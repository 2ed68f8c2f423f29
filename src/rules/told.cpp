#include "rules/told.h"

#include <algorithm>

namespace benchwarden::rules {
namespace {

bool is_newer(const tallies::Record* a, const tallies::Record* b) {
  return a->at != b->at ? a->at > b->at : a->seq > b->seq;
}

void add_standing(const Scene& scene, const tallies::RecordList& records,
                  const std::vector<std::string>& kinds, ToldOf& found) {
  for (const tallies::Record& record : records) {
    const bool wanted = std::find(kinds.begin(), kinds.end(), record.kind) != kinds.end();
    if (wanted && !record.struck && record.at <= scene.now()) found.push_back(&record);
  }
}

}  // namespace

std::vector<std::string> listed_words(std::string_view setting) {
  std::vector<std::string> words;
  std::string word;
  for (const char sign : setting) {
    if (sign == ',') {
      words.push_back(std::move(word));
      word.clear();
    } else if (sign != ' ') {
      word.push_back(sign);
    }
  }
  words.push_back(std::move(word));
  std::erase(words, "");
  return words;
}

ToldOf told_of(const Scene& scene, const findings::Subject& subject,
               const std::vector<std::string>& kinds) {
  ToldOf found;
  if (subject.thing_class.empty()) {
    for (const std::string& kind : kinds) {
      add_standing(scene, scene.state().records("", kind), kinds, found);
    }
  } else {
    add_standing(scene, scene.state().records(subject.thing_class, subject.id), kinds, found);
  }
  std::sort(found.begin(), found.end(), is_newer);
  return found;
}

std::vector<findings::Subject> subjects_of(const Rule& rule, const Scene& scene) {
  const std::string_view about = rule.setting("about");
  if (about != "workshop") return scene.subjects(rule, about);
  if (!scene.applies(rule, {})) return {};
  return {findings::Subject{}};
}

}  // namespace benchwarden::rules
