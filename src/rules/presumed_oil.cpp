#include "rules/presumed_oil.h"

#include "rules/contents.h"
#include "rules/showing.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using findings::Subject;

bool is_used_oil(const Scene& scene, const Subject& container) {
  return tallies::word(scene.stream_of(container), "waste_type") == "used-oil";
}

/// Whether what stood in the container around an event of its timeline is presumed to be hazardous.
bool is_presumed(const Scene& scene, const Subject& container, std::size_t event,
                 const RuleFigure& most) {
  Holding holding;
  holding.container = container;
  holding.stream.id = tallies::word(scene.attributes(container), "stream");
  const tallies::Timeline& timeline = scene.state().timeline(container.id);
  return is_halogenated(scene, holding, timeline.standing_around(event), most);
}

}  // namespace

FigureSpec halogens() { return {"halogens", {"ppm"}, false}; }

bool takes_content(const Rule& rule, const Scene& scene, const Subject& container) {
  const RuleFigure* most = rule.figure("halogens");
  if (most == nullptr || !is_used_oil(scene, container)) return true;
  const tallies::Timeline& timeline = scene.state().timeline(container.id);
  return is_presumed(scene, container, timeline.count_before(just_after(scene.now())), *most);
}

bool takes_oil_load(const Rule& rule, const Scene& scene, const std::string& container,
                    base::Instant taken) {
  const RuleFigure* most = rule.figure("halogens");
  const Subject subject{"container", container};
  if (most == nullptr || !is_used_oil(scene, subject)) return false;
  const tallies::Timeline& timeline = scene.state().timeline(container);
  return is_presumed(scene, subject, timeline.count_before(taken), *most);
}

}  // namespace benchwarden::rules
