#include "workshop/calculate.h"

namespace benchwarden::workshop {
namespace {

/// A number, a text, or a value with its unit, as a person would write it.
base::Result<std::string> scalar_text(const base::Json& json) {
  if (json.number() != nullptr) return json.number()->token;
  if (json.string() != nullptr) return *json.string();
  const base::Json* value = json.find("value");
  const base::Json* unit = json.find("unit");
  if (value != nullptr && value->number() != nullptr && unit != nullptr &&
      unit->string() != nullptr && json.object()->size() == 2) {
    return value->number()->token + " " + *unit->string();
  }
  return base::Error{base::ErrorCode::kInvalid,
                     R"(accepted: a number, a text, {"value", "unit"}, or an array of these)"};
}

base::Result<std::string> list_text(const base::JsonArray& array) {
  std::string text;
  for (const base::Json& item : array) {
    const auto part = scalar_text(item);
    if (!part) return part.error();
    text += *part + ";";
  }
  return text;
}

}  // namespace

base::Result<InputTexts> input_texts(const base::Json& inputs) {
  InputTexts texts;
  if (inputs.object() == nullptr) {
    return base::Error{base::ErrorCode::kInvalid, "inputs: an object is needed"};
  }
  for (const auto& [name, value] : *inputs.object()) {
    auto text = value.array() != nullptr ? list_text(*value.array()) : scalar_text(value);
    if (!text) return base::Error{text.error().code, name + ": " + text.error().detail};
    texts.emplace(name, *std::move(text));
  }
  return texts;
}

}  // namespace benchwarden::workshop
