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

/// Asks for confirmation of the value at `path` ("loads/0/mass_kg"), unless it was confirmed. One
/// confirmation answers all that is asked about a value, so each reason is told with the others, in
/// the same answer: what is asked about stays in the form for the other rules to judge.
void ask(const std::string& path, Question question, const ReadContext& context,
         entries::Refusals& refusals);

/// The name that people know a thing of the register by; its id where it has none.
std::string name_of(std::string_view thing_class, const std::string& id,
                    const Surroundings& surroundings);

}  // namespace benchwarden::forms
