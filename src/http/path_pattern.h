#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "http/route.h"

namespace benchwarden::http {

/// A path with {name} parts, e.g. "/register/{class}/{id}" or "/reports/waste-month.{format}".
class PathPattern {
 public:
  /// Nothing when a brace is unmatched, a name is empty, or a segment has two names.
  static std::optional<PathPattern> parse(std::string_view text);

  /// The named parts, when the decoded segments fit; a part is never empty.
  [[nodiscard]] std::optional<Context::Parts> match(const std::vector<std::string>& segments) const;

  /// Whether it has no name, so that one path alone fits.
  [[nodiscard]] bool is_literal() const;

  /// Whether some path could fit both.
  [[nodiscard]] bool overlaps(const PathPattern& other) const;

 private:
  /// A segment without a name is a literal, kept in `prefix`.
  struct Segment {
    std::string prefix;
    std::string name;
    std::string suffix;
  };
  static std::optional<Segment> parse_segment(std::string_view text);
  static bool fits(const Segment& segment, std::string_view text);
  static bool segments_overlap(const Segment& a, const Segment& b);

  std::vector<Segment> segments_;
};

}  // namespace benchwarden::http
