#pragma once

#include <string_view>

namespace benchwarden::reports {

/// A sentence of reports/wording that the code asks for, and the {placeholders} it must hold,
/// separated by spaces.
struct WordingKey {
  std::string_view name;
  std::string_view placeholders;
};

}  // namespace benchwarden::reports
