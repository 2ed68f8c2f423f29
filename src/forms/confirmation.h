#pragma once

#include <string>

#include "forms/value_reader.h"

namespace benchwarden::forms {

/// What may be right and is unusual, for the sentence that asks about it.
struct Question {
  entries::Unusual unusual = entries::Unusual::kAmount;
  std::string value;     ///< what was given
  std::string accepted;  ///< what is usual
  std::string thing;     ///< what it is about, by its name
};

/// Asks for confirmation of the value at `path` ("loads/0/mass_kg"), unless it was confirmed: once
/// for one value, whatever is unusual about it.
void ask(const std::string& path, Question question, const ReadContext& context,
         entries::Refusals& refusals);

/// The name that people know a thing of the register by; its id where it has none.
std::string name_of(std::string_view thing_class, const std::string& id,
                    const Surroundings& surroundings);

}  // namespace benchwarden::forms
