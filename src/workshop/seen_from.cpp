#include "workshop/seen_from.h"

namespace benchwarden::workshop {

base::Result<base::Json> seen_from(
    const Ports& ports, const std::optional<Viewpoint>& view,
    const std::function<base::Result<base::Json>(const tallies::State&, base::Instant as_of)>&
        render) {
  if (!view) return render(*ports.live.still(), base::Instant{INT64_MAX});
  const auto place = ports.costly.enter();
  if (!place) {
    return base::Error{base::ErrorCode::kUnavailable,
                       "too many questions about the past are being answered just now"};
  }
  const auto state = refold(ports.book, ports.definitions.catalog, *view);
  if (!state) return state.error();
  return render(*state, view->as_of);
}

}  // namespace benchwarden::workshop
