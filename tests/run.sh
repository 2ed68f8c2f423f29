#!/usr/bin/env bash
# Installs what the tests need, builds the program three ways and runs everything:
#   build            g++, Release: the program from outside (API, browser, commands, killed), style,
#                    and the unit tests that hold figures
#   build-sanitize   clang++, address and undefined-behaviour sanitizers: all unit and fault tests,
#                    and what libFuzzer drives
#   build-thread     g++, thread sanitizer: what runs in several threads
# Closes with the summary of the tests from outside; any failure before that ends the run.
set -euo pipefail
cd "$(dirname "$0")/.."

demo/packages.sh build test
jobs=$(nproc)

configure() { # folder, compiler, type, sanitizers
  CXX=$2 cmake -G Ninja -S . -B "$1" -DCMAKE_BUILD_TYPE="$3" -DBENCHWARDEN_SANITIZE="$4" \
    -DBENCHWARDEN_TESTS=ON
}
step() { printf '\n== %s (%s s)\n' "$1" "$SECONDS"; }

step "Release build, g++"
configure build g++ Release ""
cmake --build build --parallel "$jobs" --target all figure_tests

step "Sanitizer build, clang++"
configure build-sanitize clang++ RelWithDebInfo fuzzer-no-link,address,undefined
cmake --build build-sanitize --parallel "$jobs" --target unit_tests fuzz_targets
step "Unit tests under ASan and UBSan"
ctest --test-dir build-sanitize --output-on-failure --parallel "$jobs" --label-regex unit

step "Inputs made by libFuzzer"
tests/fuzz/run.sh 30

step "Thread sanitizer build, g++"
configure build-thread g++ RelWithDebInfo thread
cmake --build build-thread --parallel "$jobs" --target thread_tests
step "Threaded tests under TSan"
ctest --test-dir build-thread --output-on-failure --parallel "$jobs" --label-regex thread

step "Figures, Release"
ctest --test-dir build --output-on-failure --parallel "$jobs" --label-regex figures

step "The program from outside, and style"
ctest --test-dir build --output-on-failure --parallel "$jobs" --label-exclude unit
step "Done"
