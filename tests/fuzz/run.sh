#!/usr/bin/env bash
# Drives what reads from outside with inputs that libFuzzer makes:
#   tests/fuzz/run.sh [SECONDS]
# Each target runs for an equal share of SECONDS (600), from the inputs in its corpus and from what
# earlier runs found. Builds the tree of the unit tests under the sanitizers, where it is not built,
# with clang++. What is found to be wrong ends the run; its input stands in the build folder.
set -euo pipefail
cd "$(dirname "$0")/../.."

seconds=${1:-600}
if ! [[ $seconds =~ ^[1-9][0-9]*$ ]]; then
  echo "run.sh: SECONDS is '$seconds'; accepted: a whole number from 1 on" >&2
  exit 2
fi
build=build-sanitize
if [ ! -f $build/build.ninja ]; then
  CXX=clang++ cmake -G Ninja -S . -B $build -DCMAKE_BUILD_TYPE=RelWithDebInfo \
    -DBENCHWARDEN_SANITIZE=fuzzer-no-link,address,undefined -DBENCHWARDEN_TESTS=ON
fi
cmake --build $build --parallel "$(nproc)" --target fuzz_targets

targets=(book calculate data_file export form http json leaf pack register seal)
share=$((seconds / ${#targets[@]} > 0 ? seconds / ${#targets[@]} : 1))
for target in "${targets[@]}"; do
  case $target in
    pack) seeds=reports/rules/packs ;; # the project's own are the best to begin from
    *) seeds=tests/fuzz/corpus/$target ;;
  esac
  found=$build/fuzz/$target
  mkdir -p "$found"
  code=0
  # A run under load may take long for one input: the limit is for what would never end.
  BENCHWARDEN_FUZZ=$target $build/fuzz_targets -max_total_time="$share" -timeout=60 \
    -rss_limit_mb=3000 -artifact_prefix="$build/fuzz/$target-" -print_final_stats=1 \
    "$found" "$seeds" >"$found.log" 2>&1 || code=$?
  if [ "$code" -ne 0 ]; then
    tail -n 40 "$found.log" >&2
    echo "run.sh: $target: found something; its input is build-sanitize/fuzz/$target-*" >&2
    exit 1
  fi
  inputs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$found.log")
  printf '%-10s %8s inputs in %s s\n' "$target" "$inputs" "$share"
  if [ "$inputs" -lt "$(find "$seeds" -type f | wc -l)" ]; then
    echo "run.sh: $target: did not even read what it begins with, $seeds" >&2
    exit 1
  fi
done
