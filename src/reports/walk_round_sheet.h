#pragma once

#include <string>
#include <vector>

#include "document/document.h"
#include "reports/report_data.h"
#include "reports/sheet_parts.h"

namespace benchwarden::reports {

/// Something of the register that a form is asked of.
struct ThingAsked {
  std::string thing_class;
  std::string id;
  std::string name;
  std::string location;  ///< "" where none is entered
  std::string kind;      ///< of the form; "" where it is only to be looked at with the room
  std::vector<std::string> left_out = {};  ///< fields of the form that do not apply to it
};

/// A room with what stands in it; without id: what stands in no room of the register.
struct RoomAsked {
  std::string id;
  std::string name;
  std::vector<ThingAsked> things;
};

struct WalkRoundFigures {
  Frame frame;
  FormAsked walk;                ///< asked once, of the whole workshop
  std::vector<FormAsked> forms;  ///< asked of single things
  std::vector<RoomAsked> rooms;
};

base::Json walk_round_json(const WalkRoundFigures& figures);
document::Document walk_round_document(const WalkRoundFigures& figures, const ReportData& data);

}  // namespace benchwarden::reports
