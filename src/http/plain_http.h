#pragma once

#include <string>

namespace benchwarden::http {

/// Whether somebody who should speak TLS speaks HTTP in the clear, by the first byte: the letter of
/// a method. A record of TLS that begins a handshake begins with 0x16.
bool is_plain_http(char first);

/// The whole answer to one who does. It leads nowhere: what stands in Host is not ours to trust.
const std::string& plain_http_answer();

}  // namespace benchwarden::http
