#include "forms/stream_facts.h"

namespace benchwarden::forms {

std::optional<Thing> stream_of(const std::string& container, const Surroundings& surroundings) {
  const auto thing = surroundings.thing("container", container);
  const auto* id =
      thing ? entries::find_field_as<entries::Id>(thing->attributes, "stream") : nullptr;
  return id == nullptr ? std::nullopt : surroundings.thing("stream", id->slug);
}

std::optional<quantities::GramsPerCubicMetre> density_of(const std::string& container,
                                                         const Surroundings& surroundings) {
  const auto stream = stream_of(container, surroundings);
  const auto* density =
      stream ? entries::find_field_as<quantities::Quantity>(stream->attributes, "density_kg_m3")
             : nullptr;
  if (density == nullptr) return std::nullopt;
  return quantities::grams_per_cubic_metre(*density);
}

}  // namespace benchwarden::forms
