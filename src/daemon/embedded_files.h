#pragma once

#include <string_view>

#include "base/data_file.h"

namespace benchwarden::daemon {

/// The files of forms/ and reports/ and the built app, as they were when the program was built.
const base::DataFiles& embedded_files();
/// DejaVu Sans, for the reports.
std::string_view embedded_font();

}  // namespace benchwarden::daemon
