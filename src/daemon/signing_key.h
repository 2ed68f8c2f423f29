#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "base/result.h"
#include "daemon/commands.h"
#include "seal/ed25519.h"

namespace benchwarden::daemon {

/// The private key of the book in `folder`/signing.key, 32 bytes that only their owner may read;
/// made where nothing was signed yet. `last_verifier_key`: of the last checkpoint of that book.
/// A file that is no key makes room for a new one, beside it. Says on standard error what others
/// could read. kDamaged: the key is missing or another than that, and `new_key` does not say that
/// it may be; kConflict: it says so, and the key is the one that signed the last checkpoint.
base::Result<seal::SigningKey> open_signing_key(const std::filesystem::path& folder,
                                                const std::optional<std::string>& last_verifier_key,
                                                NewKey new_key);

}  // namespace benchwarden::daemon
