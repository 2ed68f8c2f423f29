#!/usr/bin/env bash
# Builds what is measured, Release, and measures it; --help lists what it takes.
#   tests/bench/run.sh [--quick] [--json FILE] [--svg FILE] [--books FOLDER] [--only PART …]
set -euo pipefail
top=$(cd "$(dirname "$0")/../.." && pwd)

"$top/demo/packages.sh" build bench
build=$top/build-bench
CXX=g++ cmake -G Ninja -S "$top" -B "$build" -DCMAKE_BUILD_TYPE=Release >/dev/null
cmake --build "$build" --target benchwarden benchwarden-demo bench_programs
peer=$top/tests/bench/peer
# The service's database library is compiled here: nothing comes from elsewhere than the registry.
if ! [ "$peer/node_modules/.package-lock.json" -nt "$peer/package-lock.json" ]; then
  cd "$peer"
  npm ci --ignore-scripts --no-audit --no-fund --loglevel=error
  npm rebuild better-sqlite3 --ignore-scripts=false --build-from-source --nodedir=/usr \
    --loglevel=error
  cd "$top"
fi
exec /usr/bin/python3 -B "$top/tests/bench/bench.py" --build "$build" --work "$build/bench-work" \
  --books "$build/bench-books" "$@"
