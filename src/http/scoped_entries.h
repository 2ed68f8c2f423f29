#pragma once

#include <optional>

#include "base/result.h"
#include "base/sha256.h"
#include "base/uuid.h"
#include "http/api.h"
#include "http/scope.h"

namespace benchwarden::http {

/// What of the book whoever is signed in may see: all, unless an inspector's access is for a part.
access::InspectionScope scope_of(const Context& context);

/// The id that {id} in the path says, of an entry. 404; 403 outside that scope. A correction lies
/// where what it corrects does, an issued report where reports of its name do.
base::Result<base::Uuid, Response> entry_of_path(const ApiPorts& ports, const Context& context);

/// 403 unless an entry within that scope names the file.
std::optional<Response> file_refusal(const ApiPorts& ports, const Context& context,
                                     const base::Sha256Digest& digest);

}  // namespace benchwarden::http
