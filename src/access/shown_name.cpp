#include "access/shown_name.h"

#include <algorithm>
#include <string_view>

#include "base/text.h"

namespace benchwarden::access {

std::string shown_name(const Person& person, NamesShown how) {
  if (person.name.empty()) return person.id;
  if (how == NamesShown::kWhole) return person.name;
  std::string initials;
  std::string_view rest = person.name;
  while (!rest.empty()) {
    const std::string_view word = rest.substr(0, rest.find(' '));
    if (!word.empty()) initials += std::string(base::first_sign(word)) + ". ";
    rest.remove_prefix(std::min(rest.size(), word.size() + 1));
  }
  return initials + "(" + person.id + ")";
}

}  // namespace benchwarden::access
