#include "http/scope.h"

#include <algorithm>
#include <array>

namespace benchwarden::http {
namespace {

using access::InspectionScope;

/// What lies in a part of the book; the workshop itself, with its zone, in each. All else is seen
/// with access to everything only.
constexpr std::array<std::string_view, 11> kWasteKinds{
    "oil-drained",      "solvent-waste",        "rag-bin",  "transfer",   "level-reading",
    "container-change", "container-inspection", "oil-test", "collection", "waste-determination",
    "month-close"};
constexpr std::array<std::string_view, 4> kGasKinds{"cylinder-check", "cylinder-change", "gas-use",
                                                    "tool-inspection"};
constexpr std::array<std::string_view, 4> kWasteClasses{"workshop", "stream", "container",
                                                        "carrier"};
constexpr std::array<std::string_view, 8> kGasClasses{"workshop",  "cylinder",  "tool",  "gauge",
                                                      "reference", "cylinders", "tools", "gauges"};
constexpr std::array<std::string_view, 3> kWasteReports{"waste-month", "waste-year",
                                                        "collection-sheet"};
constexpr std::array<std::string_view, 3> kGasReports{"cylinder-history", "tool-history",
                                                      "inspection-sheet"};

template <std::size_t kCount>
bool has(const std::array<std::string_view, kCount>& names, std::string_view name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

template <std::size_t kWaste, std::size_t kGas>
bool lies_in(InspectionScope scope, const std::array<std::string_view, kWaste>& waste,
             const std::array<std::string_view, kGas>& gas, std::string_view name) {
  if (scope == InspectionScope::kEverything) return true;
  return scope == InspectionScope::kWaste ? has(waste, name) : has(gas, name);
}

}  // namespace

bool kind_in_scope(InspectionScope scope, std::string_view kind) {
  return lies_in(scope, kWasteKinds, kGasKinds, kind);
}

bool class_in_scope(InspectionScope scope, std::string_view thing_class) {
  return lies_in(scope, kWasteClasses, kGasClasses, thing_class);
}

bool report_in_scope(InspectionScope scope, std::string_view report) {
  return lies_in(scope, kWasteReports, kGasReports, report);
}

bool subject_in_scope(InspectionScope scope, std::string_view subject) {
  return class_in_scope(scope, subject.substr(0, subject.find('/')));
}

bool route_in_scope(InspectionScope scope, Shows shows, const Named& named) {
  if (scope == InspectionScope::kEverything) return true;
  switch (shows) {
    case Shows::kWhole:
      return false;
    case Shows::kNothing:
      return true;
    case Shows::kWaste:
      return scope == InspectionScope::kWaste;
    case Shows::kCylindersAndTools:
      return scope == InspectionScope::kCylindersAndTools;
    case Shows::kKind:
      return (named("kind").empty() || kind_in_scope(scope, named("kind"))) &&
             (named("subject").empty() || subject_in_scope(scope, named("subject")));
    case Shows::kClass:
      return class_in_scope(scope, named("class"));
    case Shows::kReport:
      return report_in_scope(scope, named("name"));
  }
  return false;
}

}  // namespace benchwarden::http
