#pragma once

#include <cstdint>

namespace benchwarden::http {

/// The library reports every reset and every unreadable head to one handler of the whole process.
/// Ours only counts: anybody on the network can cause as many as they like, so a log line each
/// would fill the disk.
void count_library_faults();
std::uint64_t library_faults_counted();

}  // namespace benchwarden::http
