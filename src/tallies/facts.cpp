#include "tallies/facts.h"

#include <variant>

namespace benchwarden::tallies {
namespace {

constexpr std::int64_t kThousandthsMax = 1'000'000'000;  // a million of any unit: no overflow

std::optional<quantities::GramsPerCubicMetre> density_of(const entries::Fields& stream) {
  const auto density = measure(stream, "density_kg_m3", "kg_m3");
  if (!density) return std::nullopt;
  const auto grams = quantities::grams_per_cubic_metre(*density);
  if (grams.count() <= 0 || grams.count() > kDensityMax) return std::nullopt;
  return grams;
}

CountedBy counted_by_of(const entries::Fields& stream) {
  return word(stream, "counted_by") == "mass" ? CountedBy::kMass : CountedBy::kVolume;
}

}  // namespace

std::string_view word(const entries::Fields& attributes, std::string_view name) {
  const entries::FieldValue* value = entries::find_field(attributes, name);
  if (value == nullptr) return {};
  if (const auto* id = std::get_if<entries::Id>(value)) return id->slug;
  if (const auto* code = std::get_if<entries::Code>(value)) return code->slug;
  if (const auto* text = std::get_if<entries::Text>(value)) return text->text;
  return {};
}

std::optional<quantities::Quantity> measure(const entries::Fields& attributes,
                                            std::string_view name, std::string_view unit) {
  const auto* quantity = entries::find_field_as<quantities::Quantity>(attributes, name);
  return quantity != nullptr && is_measure(*quantity, unit) ? std::optional(*quantity)
                                                            : std::nullopt;
}

bool is_measured(base::Decimal value) {
  return value.thousandths >= -kThousandthsMax && value.thousandths <= kThousandthsMax;
}

bool is_measure(const quantities::Quantity& quantity, std::string_view unit) {
  return quantity.unit != nullptr && quantity.unit->id == unit && is_measured(quantity.value);
}

std::optional<StreamFacts> stream_facts(const Register& under_care, std::string_view stream) {
  const Thing* thing = under_care.thing("stream", stream);
  if (thing == nullptr) return std::nullopt;
  const entries::Fields& said = thing->attributes;
  StreamFacts facts;
  facts.id = stream;
  facts.name = word(said, "name");
  facts.low_code = word(said, "low_code");
  facts.hazardous = word(said, "hazardous") != "no";
  facts.counted_by = counted_by_of(said);
  facts.density = density_of(said);
  return facts;
}

ContainerFacts container_facts(const Register& under_care, std::string_view container) {
  ContainerFacts facts;
  const Thing* thing = under_care.thing("container", container);
  if (thing == nullptr) return facts;
  facts.counts_waste = word(thing->attributes, "counts_waste") != "no";
  const Thing* stream = under_care.thing("stream", word(thing->attributes, "stream"));
  if (stream == nullptr) return facts;
  facts.counted_by = counted_by_of(stream->attributes);
  facts.density = density_of(stream->attributes);
  return facts;
}

}  // namespace benchwarden::tallies
