#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "base/result.h"

namespace benchwarden::book {

/// The persons who signed its entries, each once, sorted; read without the vocabulary, and none of
/// a leaf that cannot be read. Nobody when there is no book in `folder`.
base::Result<std::vector<std::string>> persons_in(const std::filesystem::path& folder);

}  // namespace benchwarden::book
