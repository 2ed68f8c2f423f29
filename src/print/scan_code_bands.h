#pragma once

#include <string>
#include <vector>

#include "document/blocks.h"
#include "print/typesetter.h"

namespace benchwarden::print {

/// The dark modules of document::qr_code as black areas, runs of a row joined. (x, y) is the top
/// left of the code itself; the quiet zone is the caller's.
std::vector<Draw> qr_draws(const std::vector<std::string>& rows, Mpt x, Mpt y, Mpt module);

/// Appends a QR code with its quiet zone and the words beside it; the words alone where the
/// content is more than a code holds.
void add_scan_code(Flow& flow, const document::ScanCode& code, const Typesetter& type);

}  // namespace benchwarden::print
