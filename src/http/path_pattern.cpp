#include "http/path_pattern.h"

#include <algorithm>

namespace benchwarden::http {

std::optional<PathPattern::Segment> PathPattern::parse_segment(std::string_view text) {
  const std::size_t open = text.find('{');
  const std::size_t close = text.find('}');
  if (open == std::string_view::npos && close == std::string_view::npos) {
    return Segment{std::string(text), "", ""};
  }
  if (open == std::string_view::npos || close == std::string_view::npos || close < open + 2) {
    return std::nullopt;
  }
  const std::string_view suffix = text.substr(close + 1);
  if (suffix.find_first_of("{}") != std::string_view::npos) {
    return std::nullopt;
  }
  return Segment{std::string(text.substr(0, open)),
                 std::string(text.substr(open + 1, close - open - 1)), std::string(suffix)};
}

std::optional<PathPattern> PathPattern::parse(std::string_view text) {
  const auto parts = path_segments(text);
  if (!parts) {
    return std::nullopt;
  }
  PathPattern pattern;
  for (const std::string& part : *parts) {
    std::optional<Segment> segment = parse_segment(part);
    if (!segment) {
      return std::nullopt;
    }
    pattern.segments_.push_back(std::move(*segment));
  }
  return pattern;
}

bool PathPattern::fits(const Segment& segment, std::string_view text) {
  if (segment.name.empty()) {
    return text == segment.prefix;
  }
  return text.size() > segment.prefix.size() + segment.suffix.size() &&
         text.starts_with(segment.prefix) && text.ends_with(segment.suffix);
}

std::optional<Context::Parts> PathPattern::match(const std::vector<std::string>& segments) const {
  if (segments.size() != segments_.size()) {
    return std::nullopt;
  }
  Context::Parts parts;
  for (std::size_t i = 0; i < segments.size(); ++i) {
    const Segment& wanted = segments_[i];
    if (!fits(wanted, segments[i])) {
      return std::nullopt;
    }
    if (!wanted.name.empty()) {
      const std::size_t length = segments[i].size() - wanted.prefix.size() - wanted.suffix.size();
      parts.emplace_back(wanted.name, segments[i].substr(wanted.prefix.size(), length));
    }
  }
  return parts;
}

bool PathPattern::is_literal() const {
  return std::all_of(segments_.begin(), segments_.end(),
                     [](const Segment& segment) { return segment.name.empty(); });
}

bool PathPattern::segments_overlap(const Segment& a, const Segment& b) {
  if (a.name.empty()) {
    return fits(b, a.prefix);
  }
  if (b.name.empty()) {
    return fits(a, b.prefix);
  }
  const std::string_view a_prefix = a.prefix;
  const std::string_view b_prefix = b.prefix;
  const std::string_view a_suffix = a.suffix;
  const std::string_view b_suffix = b.suffix;
  return (a_prefix.starts_with(b_prefix) || b_prefix.starts_with(a_prefix)) &&
         (a_suffix.ends_with(b_suffix) || b_suffix.ends_with(a_suffix));
}

bool PathPattern::overlaps(const PathPattern& other) const {
  return segments_.size() == other.segments_.size() &&
         std::equal(segments_.begin(), segments_.end(), other.segments_.begin(), segments_overlap);
}

}  // namespace benchwarden::http
