#pragma once

#include <string>

#include "forms/catalog.h"
#include "workshop/export_wording.h"

namespace benchwarden::workshop {

/// README.txt of an export: what lies in the folder, and for each table every column with label,
/// unit and type, from the definitions.
std::string export_readme(const ExportWording& wording, const forms::Catalog& catalog);

}  // namespace benchwarden::workshop
