#pragma once

#include <string>

namespace benchwarden::http {

/// Of the libraries that talk to the network, as they are loaded or were built with.
struct LibraryVersions {
  std::string openssl;
  std::string poco;
};
LibraryVersions library_versions();

}  // namespace benchwarden::http
