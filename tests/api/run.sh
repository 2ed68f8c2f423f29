#!/usr/bin/env bash
# The tests of the interface and of the tablet page, from outside, against one running daemon:
#   tests/api/run.sh BENCHWARDEN DEMO [WORK]
# WORK is where packages and data go (emptied first); without it a folder that is removed at the
# end.
set -euo pipefail
if [ $# -lt 2 ]; then
  sed -n '2,5s/^# \{0,1\}//p' "$0" >&2
  exit 2
fi
top=$(cd "$(dirname "$0")/../.." && pwd)
if [ $# -ge 3 ]; then
  work=$3
  rm -rf "$work"
  mkdir -p "$work"
else
  work=$(mktemp -d -t benchwarden-api.XXXXXX)
  trap 'rm -rf "$work"' EXIT
fi
work=$(realpath "$work")

# The packages go into copies, so that the source tree stays as it is; the tests of the tablet page
# read parts of the app beside them, and build it with its texts in marks.
mkdir -p "$work/tests" "$work/forms"
for folder in forms/app tests/browser tests/api; do
  cp -r "$top/$folder" "$work/$folder"
  rm -rf "$work/$folder/node_modules"
  (cd "$work/$folder" && npm ci --no-audit --no-fund --loglevel=error)
done

export BENCHWARDEN_SEEN=$work/seen.txt
: >"$BENCHWARDEN_SEEN"
# The tablet first: the tests of the interface leave things in the register.
export BENCHWARDEN_WORK=$work
# shellcheck disable=SC2016 # the inner shell fills them in
"$top/tests/with_demo.sh" "$1" "$2" "$work/data" bash -c \
  'cd "$BENCHWARDEN_WORK/tests/browser" && npm test && cd ../api && npm test'
"$top/tests/api/tamper.sh" "$1" "$work/data"
