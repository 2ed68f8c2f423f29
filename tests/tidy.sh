#!/usr/bin/env bash
# clang-tidy over the sources, with the checks of .clang-tidy; slow, so no part of the test command:
#   tests/tidy.sh [FILES]   all .cpp of src without FILES
# It reads each file by itself, which the builds of whole folders do not.
set -euo pipefail
cd "$(dirname "$0")/.."

CXX=g++ cmake -G Ninja -S . -B build-tidy -DCMAKE_UNITY_BUILD=OFF -DBENCHWARDEN_TESTS=ON >/dev/null
if [ $# -eq 0 ]; then mapfile -t files < <(find src -name '*.cpp' | sort); else files=("$@"); fi
# The build's flags are those of g++; clang does not know two of them.
printf '%s\0' "${files[@]}" | xargs -0 -n 1 -P "$(nproc)" \
  clang-tidy --quiet -p build-tidy --extra-arg=-Wno-unknown-warning-option
echo "${#files[@]} files, no finding"
