#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/timestamp.h"
#include "http/openssl_handles.h"

namespace benchwarden::http {

/// A private key with the certificate of it, and those that lead to a trusted one.
struct CertifiedKey {
  CertificateHandle certificate;
  std::vector<CertificateHandle> chain;  ///< of the issuers, the nearest first
  KeyHandle key;
};

/// Of a file that holds them: common practice, no source.
inline constexpr std::size_t kPemBytesMax = 65536;

/// From PEM: the first certificate is that of the key, more are its chain. kDamaged, in words that
/// go on after a file's name: nothing readable, an encrypted key, or a key of another certificate.
base::Result<CertifiedKey> read_certified_key(std::string_view certificates_pem,
                                              std::string_view key_pem);

std::string certificate_pem(const CertifiedKey& certified);
/// Key and certificate in one text, which read_certified_key takes for both.
base::Result<std::string> whole_pem(const CertifiedKey& certified);

/// SHA-256 of the certificate in pairs, as devices show it: "0A:1B:…".
std::string fingerprint_of(const CertifiedKey& certified);
/// Every name and address the certificate is for, sorted.
std::vector<std::string> names_in(const CertifiedKey& certified);
/// Whether it is for that host name, by itself or by a wildcard.
bool is_for_name(const CertifiedKey& certified, const std::string& name);
base::Instant begins_at(const CertifiedKey& certified);
base::Instant ends_at(const CertifiedKey& certified);

}  // namespace benchwarden::http
