#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "base/timestamp.h"
#include "http/certified_key.h"

namespace benchwarden::http {

/// How long our certificates last, and how long before its end one of a server is made anew. Apple
/// takes 825 days of a server at most; the rest is common practice.
inline constexpr int kAuthorityDays = 3650;
inline constexpr int kServerDays = 397;
inline constexpr int kRenewedAtDaysLeft = 60;

/// An authority of one workshop. Devices that trust it trust it for `name`, for this machine
/// itself and for private addresses, and for nothing else (RFC 5280, name constraints): whoever
/// stole its key could not take the place of a bank.
base::Result<CertifiedKey> make_authority(const std::string& name, base::Instant now);
/// The name it was made for.
std::string name_of_authority(const CertifiedKey& authority);

/// A certificate of a server for these host names and addresses, with a key of its own. It ends
/// with the authority at the latest.
base::Result<CertifiedKey> issue(const CertifiedKey& authority,
                                 const std::vector<std::string>& names, base::Instant now);
/// Whether a device that trusts the authority takes the certificate of a server at that time;
/// kDamaged with the reason if not.
base::Status<> verify_issued(const CertifiedKey& authority, const CertifiedKey& server,
                             base::Instant now);

}  // namespace benchwarden::http
