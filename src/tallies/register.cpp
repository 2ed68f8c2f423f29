#include "tallies/register.h"

#include <algorithm>
#include <iterator>

#include "tallies/bytes.h"
#include "tallies/fields_bytes.h"

namespace benchwarden::tallies {
namespace {

void merge(entries::Fields& known, const entries::Fields& said) {
  for (const entries::Field& field : said) {
    const auto same = std::find_if(known.begin(), known.end(), [&](const entries::Field& other) {
      return other.name == field.name;
    });
    if (same == known.end()) {
      known.push_back(field);
    } else {
      same->value = field.value;
    }
  }
}

void take_in(Thing& thing, std::uint64_t seq, entries::RegisterAct act,
             const entries::Fields& said) {
  if (act == entries::RegisterAct::kAdded && thing.added_seq == 0) thing.added_seq = seq;
  thing.retired = act == entries::RegisterAct::kRetired ||
                  (thing.retired && act == entries::RegisterAct::kChanged);
  thing.changed_seq = seq;
  merge(thing.attributes, said);
}

}  // namespace

Thing Register::made_from(const std::vector<Step>& steps) {
  Thing thing;
  for (const Step& step : steps) take_in(thing, step.seq, step.act, step.attributes);
  return thing;
}

void Register::make_again(const Key& key) {
  const auto& [thing_class, id] = key;
  const auto steps = steps_.find(key);
  if (steps == steps_.end()) {
    things_[thing_class].erase(id);
    return;
  }
  Thing& thing = things_[thing_class][id];
  const bool in_service = thing.in_service;
  thing = made_from(steps->second);
  thing.in_service = in_service;
}

void Register::post(base::Instant at, std::uint64_t seq, const entries::Changes& changes) {
  const Key key{changes.thing_class, changes.thing};
  std::vector<Step>& steps = steps_[key];
  Step step{at, seq, changes.act, changes.attributes};
  if (steps.empty() || steps.back().seq <= seq) {
    take_in(things_[key.first][key.second], seq, changes.act, changes.attributes);
    steps.push_back(std::move(step));
    return;
  }
  const auto later =
      std::find_if(steps.begin(), steps.end(), [&](const Step& other) { return other.seq > seq; });
  steps.insert(later, std::move(step));
  make_again(key);
}

void Register::withdraw(std::uint64_t seq, std::string_view thing_class, std::string_view id) {
  const Key key{thing_class, id};
  const auto found = steps_.find(key);
  if (found == steps_.end()) return;
  std::vector<Step>& steps = found->second;
  std::erase_if(steps, [&](const Step& step) { return step.seq == seq; });
  if (steps.empty()) steps_.erase(found);
  make_again(key);
}

void Register::set_in_service(std::string_view thing_class, std::string_view id, bool in_service) {
  const auto things = things_.find(thing_class);
  if (things == things_.end()) return;
  const auto thing = things->second.find(id);
  if (thing != things->second.end()) thing->second.in_service = in_service;
}

const Things& Register::things(std::string_view thing_class) const {
  static const Things kNone;
  const auto found = things_.find(thing_class);
  return found == things_.end() ? kNone : found->second;
}

const Thing* Register::thing(std::string_view thing_class, std::string_view id) const {
  const Things& all = things(thing_class);
  const auto found = all.find(id);
  return found == all.end() ? nullptr : &found->second;
}

std::optional<base::Instant> Register::entered_at(std::string_view thing_class,
                                                  std::string_view id) const {
  const auto steps = steps_.find(Key{thing_class, id});
  return steps == steps_.end() ? std::nullopt : std::optional(steps->second.front().at);
}

std::optional<base::Instant> Register::retired_since(std::string_view thing_class,
                                                     std::string_view id) const {
  const auto steps = steps_.find(Key{thing_class, id});
  if (steps == steps_.end()) return std::nullopt;
  std::optional<base::Instant> since;
  for (const Step& step : steps->second) {
    if (step.act == entries::RegisterAct::kAdded) since.reset();
    if (step.act == entries::RegisterAct::kRetired && !since) since = step.at;
  }
  return since;
}

std::optional<base::Instant> Register::holds_since(std::string_view thing_class,
                                                   std::string_view id,
                                                   std::string_view attribute) const {
  const auto steps = steps_.find(Key{thing_class, id});
  if (steps == steps_.end()) return std::nullopt;
  std::optional<base::Instant> since;
  const entries::FieldValue* held = nullptr;
  for (const Step& step : steps->second) {
    const entries::FieldValue* said = entries::find_field(step.attributes, attribute);
    if (said == nullptr || (held != nullptr && *said == *held)) continue;
    held = said;
    since = step.at;
  }
  return since;
}

std::optional<Thing> Register::thing_at(std::string_view thing_class, std::string_view id,
                                        base::Instant at) const {
  const auto found = steps_.find(Key{thing_class, id});
  if (found == steps_.end()) return std::nullopt;
  std::vector<Step> known{found->second.front()};
  std::copy_if(std::next(found->second.begin()), found->second.end(), std::back_inserter(known),
               [&](const Step& step) { return step.at <= at; });
  return made_from(known);
}

std::vector<base::Instant> Register::said_at(std::string_view thing_class,
                                             std::string_view id) const {
  std::vector<base::Instant> all;
  const auto found = steps_.find(Key{thing_class, id});
  if (found == steps_.end()) return all;
  for (const Step& step : found->second) all.push_back(step.at);
  return all;
}

void Register::write(ByteWriter& writer) const {
  writer.number(steps_.size());
  for (const auto& [key, steps] : steps_) {
    writer.text(key.first);
    writer.text(key.second);
    writer.number(steps.size());
    for (const Step& step : steps) {
      writer.signed_number(step.at.ms);
      writer.number(step.seq);
      writer.number(static_cast<std::uint64_t>(step.act));
      write_fields(writer, step.attributes);
    }
  }
}

Register Register::read(ByteReader& reader) {
  Register result;
  const std::size_t keys = reader.count();
  for (std::size_t i = 0; i < keys && !reader.failed(); ++i) {
    entries::Changes changes;
    changes.thing_class = reader.text();
    changes.thing = reader.text();
    const Key key{changes.thing_class, changes.thing};
    const std::size_t steps = reader.count();
    if (steps == 0 || (!result.steps_.empty() && key <= result.steps_.rbegin()->first)) {
      reader.fail();
    }
    std::uint64_t last = 0;
    for (std::size_t j = 0; j < steps && !reader.failed(); ++j) {
      const base::Instant at{reader.signed_number()};
      const std::uint64_t seq = reader.number();
      if (seq < last) reader.fail();
      last = seq;
      changes.act = static_cast<entries::RegisterAct>(
          reader.number_up_to(static_cast<std::uint64_t>(entries::RegisterAct::kRetired)));
      changes.attributes = read_fields(reader);
      if (!reader.failed()) result.post(at, seq, changes);
    }
  }
  return result;
}

}  // namespace benchwarden::tallies
