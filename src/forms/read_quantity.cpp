#include "forms/confirmation.h"
#include "forms/shown.h"
#include "forms/told_amounts.h"
#include "forms/value_reader.h"

namespace benchwarden::forms {

using base::Json;
using entries::RefusalCode;

namespace {

enum class TokenFault { kNotPlain, kTooManyPlaces, kTooLarge };

/// Why a JSON number token is no Decimal.
TokenFault token_fault(const std::string& token) {
  if (token.find_first_of("eE") != std::string::npos) return TokenFault::kNotPlain;
  constexpr std::size_t kPlacesMax = 3;
  const std::size_t point = token.find('.');
  const bool many = point != std::string::npos && token.size() - point - 1 > kPlacesMax;
  return many ? TokenFault::kTooManyPlaces : TokenFault::kTooLarge;
}

std::string unit_ids(quantities::Dimension dimension) {
  std::string ids;
  for (const quantities::Unit* unit : quantities::units_of(dimension)) {
    ids += (ids.empty() ? "" : ", ") + std::string(unit->id);
  }
  return ids;
}

bool contains(const Band& band, base::Decimal value) {
  return value >= band.lowest && value <= band.highest;
}

}  // namespace

std::optional<entries::Scalar> ValueReader::quantity(const FieldDefinition& field, const Json& json,
                                                     const std::string& path) {
  std::optional<quantities::Quantity> given;
  if (const base::JsonObject* members = json.object()) {
    given = with_unit(field, *members, path);
  } else if (const auto value = decimal(field, json, path)) {
    given = quantities::Quantity{*value, field.unit};
  }
  if (!given) return std::nullopt;
  const auto converted = quantities::convert(*given, *field.unit);
  if (!converted) {
    return refuse(path, RefusalCode::kImpossible, shown_value(json), shown_accepted(field));
  }
  if (!in_bands(field, *given, converted->value, path)) return std::nullopt;
  if (given->unit != field.unit) {
    as_read_.push_back({path, given->value, std::string(given->unit->id)});
  }
  return entries::Scalar(*converted);
}

std::optional<base::Decimal> ValueReader::decimal(const FieldDefinition& field, const Json& json,
                                                  const std::string& path) {
  const std::string accepted = shown_accepted(field);
  if (json.number() == nullptr) {
    return refuse(path, no_number(json), shown_value(json), accepted);
  }
  const auto value = base::parse_decimal(json.number()->token);
  if (value) return *value;
  switch (token_fault(json.number()->token)) {
    case TokenFault::kNotPlain:
      return refuse(path, RefusalCode::kNotANumber, shown_value(json), accepted);
    case TokenFault::kTooManyPlaces:
      return refuse(path, RefusalCode::kTooManyPlaces, shown_value(json), "3");
    case TokenFault::kTooLarge:
      break;
  }
  return refuse(path, RefusalCode::kImpossible, shown_value(json), accepted);
}

std::optional<quantities::Quantity> ValueReader::with_unit(const FieldDefinition& field,
                                                           const base::JsonObject& members,
                                                           const std::string& path) {
  const Json* value = nullptr;
  const Json* unit = nullptr;
  const std::size_t refused_before = refusals_.size();
  for (const auto& [name, member] : members) {
    if (name == "value") {
      value = &member;
    } else if (name == "unit") {
      unit = &member;
    } else {
      refuse(path + "/" + base::pointer_token(name), RefusalCode::kUnknownMember,
             shown_value(member), "value, unit");
    }
  }
  const std::string ids = unit_ids(field.unit->dimension);
  if (value == nullptr) refuse(path + "/value", RefusalCode::kMissing, "", shown_accepted(field));
  if (unit == nullptr) refuse(path + "/unit", RefusalCode::kMissing, "", ids);
  const quantities::Unit* found = nullptr;
  if (unit != nullptr) {
    found = unit->string() == nullptr ? nullptr : quantities::find_unit(*unit->string());
    if (found == nullptr || found->dimension != field.unit->dimension) {
      refuse(path + "/unit", RefusalCode::kUnknownUnit, shown_value(*unit), ids);
    }
  }
  std::optional<base::Decimal> number;
  if (value != nullptr) number = decimal(field, *value, path + "/value");
  if (refusals_.size() != refused_before) return std::nullopt;
  return quantities::Quantity{*number, found};
}

bool ValueReader::in_bands(const FieldDefinition& field, const quantities::Quantity& given,
                           base::Decimal value, const std::string& path) {
  const std::string shown = shown_amount(given.value, *given.unit);
  if (!contains(field.possible, value)) {
    refuse(path, RefusalCode::kImpossible, shown, shown_accepted(field));
    return false;
  }
  if (field.whole && value.thousandths % 1000 != 0) {
    refuse(path, RefusalCode::kTooManyPlaces, shown, "0");
    return false;
  }
  if (field.normal && !contains(*field.normal, value)) {
    const Surroundings& world = context_.surroundings;
    ask(path,
        {entries::Unusual::kAmount, told_amount(given, world),
         told_band(*field.normal, *field.unit, *given.unit, world), ""},
        context_, refusals_);
  }
  return true;
}

}  // namespace benchwarden::forms
