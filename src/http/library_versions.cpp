#include "http/library_versions.h"

#include <Poco/Version.h>
#include <openssl/crypto.h>

namespace benchwarden::http {

LibraryVersions library_versions() {
  // A byte each for major, minor and patch, then one for what comes before a release.
  const auto part = [](unsigned shift) {
    return std::to_string((static_cast<unsigned>(POCO_VERSION) >> shift) & 0xffU);
  };
  return {OpenSSL_version(OPENSSL_VERSION), part(24) + "." + part(16) + "." + part(8)};
}

}  // namespace benchwarden::http
