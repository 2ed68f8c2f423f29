#!/usr/bin/env bash
# clang-tidy over the sources, with the checks of .clang-tidy; slow, so no part of the test command:
#   tests/tidy.sh [FILES]   all .cpp of src without FILES; needs a configured build folder
set -euo pipefail
cd "$(dirname "$0")/.."

if [ ! -f build/compile_commands.json ]; then
  echo "tidy.sh: configure first: cmake -G Ninja -S . -B build" >&2
  exit 2
fi
if [ $# -eq 0 ]; then mapfile -t files < <(find src -name '*.cpp' | sort); else files=("$@"); fi
# The build's flags are those of g++; clang does not know two of them.
printf '%s\0' "${files[@]}" | xargs -0 -n 1 -P "$(nproc)" \
  clang-tidy --quiet -p build --extra-arg=-Wno-unknown-warning-option
echo "${#files[@]} files, no finding"
