#include "workshop/register_file.h"

#include <charconv>
#include <map>
#include <utility>

#include "workshop/filed_value.h"

namespace benchwarden::workshop {
namespace {

constexpr std::string_view kThings = "thing";
constexpr std::string_view kForm = "register-change";

FiledThing read_thing(const base::Toml& table, const std::string& file,
                      const forms::Catalog& catalog, base::FileFaults& faults) {
  base::TomlReader reader(table, file, faults);
  FiledThing thing{reader.text("class"), reader.text("id"), {}, {}, table};
  for (const std::string_view name : {"class", "id"}) {
    const auto given = table.members.find(name);
    if (given != table.members.end() && given->second.type == base::Toml::Type::kText &&
        given->second.text.empty()) {
      reader.fault("'" + std::string(name) + "' is empty");
    }
  }
  for (const std::string& name : reader.texts("confirmed")) thing.confirmed.emplace_back(name);
  for (const auto& [name, value] : table.members) {
    if (name == "class" || name == "id" || name == "confirmed") continue;
    if (name == "act" || name == "thing" || name == "thing_class") {
      faults.push_back({file, value.line,
                        "'" + name + "' is not written in a file; accepted: " +
                            "class, id, confirmed and attributes"});
      continue;
    }
    thing.attributes.emplace_back(name, filed_value(value, name, catalog));
  }
  return thing;
}

using Key = std::pair<std::string, std::string>;  ///< class, id

/// Puts a thing after those it names. A circle is cut where it is met: what then names a thing
/// that is not there yet is refused like any other.
class Sorter {
 public:
  Sorter(std::vector<FiledThing> things, const forms::Definition& form)
      : things_(std::move(things)), form_(form), visited_(things_.size()) {
    for (std::size_t i = 0; i < things_.size(); ++i) {
      place_of_.emplace(Key(things_[i].thing_class, things_[i].id), i);
    }
  }

  std::vector<FiledThing> run() {
    for (std::size_t i = 0; i < things_.size(); ++i) visit(i);
    std::vector<FiledThing> sorted;
    for (const std::size_t place : order_) sorted.push_back(std::move(things_[place]));
    return sorted;
  }

 private:
  void visit(std::size_t first) {
    // Not by recursion: a file may chain as many things as it holds.
    std::vector<std::pair<std::size_t, bool>> waiting{{first, false}};
    while (!waiting.empty()) {
      const auto [place, needs_done] = waiting.back();
      waiting.pop_back();
      if (needs_done) order_.push_back(place);
      if (needs_done || visited_[place]) continue;
      visited_[place] = true;
      waiting.emplace_back(place, true);
      std::vector<std::size_t> needed = needs_of(things_[place]);
      for (auto need = needed.rbegin(); need != needed.rend(); ++need) {
        waiting.emplace_back(*need, false);
      }
    }
  }

  [[nodiscard]] std::vector<std::size_t> needs_of(const FiledThing& thing) const {
    std::vector<std::size_t> needs;
    for (const auto& [name, value] : thing.attributes) {
      const forms::FieldDefinition* field = forms::find_field(form_, name);
      if (field == nullptr || field->thing_class.empty() || value.string() == nullptr) continue;
      const auto found = place_of_.find(Key(field->thing_class, *value.string()));
      if (found != place_of_.end()) needs.push_back(found->second);
    }
    return needs;
  }

  std::vector<FiledThing> things_;
  const forms::Definition& form_;
  std::map<Key, std::size_t> place_of_;
  std::vector<bool> visited_;
  std::vector<std::size_t> order_;
};

/// The value at the next step of a pointer; nullptr where there is none.
const base::Toml* step_into(const base::Toml& value, const std::string& name) {
  if (value.type == base::Toml::Type::kTable) {
    const auto found = value.members.find(name);
    return found == value.members.end() ? nullptr : &found->second;
  }
  std::size_t index = 0;
  const auto read = std::from_chars(name.data(), name.data() + name.size(), index);
  const bool number = read.ec == std::errc() && read.ptr == name.data() + name.size();
  return number && index < value.items.size() ? &value.items[index] : nullptr;
}

}  // namespace

std::vector<FiledThing> read_filed_things(base::TomlReader& file, const forms::Catalog& catalog,
                                          base::FileFaults& faults) {
  std::vector<FiledThing> things;
  for (const base::Toml* table : file.tables(kThings)) {
    FiledThing thing = read_thing(*table, file.file(), catalog, faults);
    if (!thing.thing_class.empty() && !thing.id.empty()) things.push_back(std::move(thing));
  }
  return things;
}

RegisterFile read_register_file(std::string_view text, const forms::Catalog& catalog) {
  RegisterFile file;
  const auto table = base::parse_toml(text, "");
  if (!table) return {{}, table.error()};
  base::TomlReader reader(*table, "", file.faults);
  file.things = read_filed_things(reader, catalog, file.faults);
  for (const auto& [member, value] : table->members) {
    if (member == kThings) continue;
    file.faults.push_back(
        {"", value.line, "'" + member + "' is not known here; accepted: [[thing]]"});
  }
  if (file.things.empty() && file.faults.empty()) {
    file.faults.push_back({"", 0, "holds no thing; accepted: a table [[thing]] for each"});
  }
  return file;
}

base::JsonObject register_fields(const FiledThing& thing, std::string_view act) {
  base::JsonObject fields{{"act", act}, {"thing_class", thing.thing_class}, {"thing", thing.id}};
  fields.insert(fields.end(), thing.attributes.begin(), thing.attributes.end());
  return fields;
}

int line_of(const FiledThing& thing, std::string_view pointer) {
  constexpr std::string_view kFields = "/fields/";
  if (!pointer.starts_with(kFields)) return thing.table.line;
  std::string_view rest = pointer.substr(kFields.size());
  const base::Toml* place = &thing.table;
  int line = place->line;
  while (!rest.empty() && place != nullptr) {
    const std::size_t slash = rest.find('/');
    std::string name(rest.substr(0, slash));
    if (place == &thing.table && name == "thing_class") name = "class";
    if (place == &thing.table && name == "thing") name = "id";
    rest = slash == std::string_view::npos ? "" : rest.substr(slash + 1);
    place = step_into(*place, name);
    if (place != nullptr) line = place->line;
  }
  return line;
}

std::vector<FiledThing> in_order_of_need(std::vector<FiledThing> things,
                                         const forms::Catalog& catalog) {
  return Sorter(std::move(things), *catalog.find(kForm)).run();
}

}  // namespace benchwarden::workshop
