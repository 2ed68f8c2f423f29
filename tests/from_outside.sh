#!/usr/bin/env bash
# The tests of the interface, or of the tablet page in a browser, against a running daemon:
#   tests/from_outside.sh api|browser BENCHWARDEN DEMO [WORK [SHARE/SHARES]]
# WORK is where packages and data go (emptied first); without it a folder that is removed at the
# end. 1/3: every third file of tests, from the first one on. What failed is told once more at the
# end.
set -euo pipefail
if [ $# -lt 3 ]; then
  sed -n '2,7s/^#\{0,1\}//p' "$0" >&2
  exit 2
fi
top=$(cd "$(dirname "$0")/.." && pwd)
part=$1
if [ $# -ge 4 ]; then
  work=$4
  rm -rf "$work"
  mkdir -p "$work"
else
  work=$(mktemp -d -t benchwarden-outside.XXXXXX)
  trap 'rm -rf "$work"' EXIT
fi
work=$(realpath "$work")

# The packages go into copies, so that the source tree stays as it is. What runs in a browser reads
# parts of the app beside it, and builds it with its texts in marks; the interface's tests do not.
case "$part" in
  api) folders=(tests/api) ;;
  browser) folders=(tests/browser forms/app) ;;
  *) echo "from_outside.sh: '$part'; accepted: api, browser" >&2; exit 2 ;;
esac
for folder in "${folders[@]}"; do
  mkdir -p "$work/$folder"
  cp -r "$top/$folder/." "$work/$folder"
  rm -rf "$work/$folder/node_modules"
  (cd "$work/$folder" && npm ci --no-audit --no-fund --loglevel=error)
done

export BENCHWARDEN_SEEN=$work/seen.txt
: >"$BENCHWARDEN_SEEN"
export BENCHWARDEN_TESTS=$work/tests/$part
files=()
if [ $# -ge 5 ]; then
  count=0
  for file in "$BENCHWARDEN_TESTS"/*.test.mjs; do
    [ $((count++ % ${5#*/})) -ne $((${5%/*} - 1)) ] || files+=("$file")
  done
fi
code=0
# shellcheck disable=SC2016 # the inner shell fills it in
"$top/tests/with_demo.sh" "$2" "$3" "$work/data" \
  bash -c 'cd "$BENCHWARDEN_TESTS" && npm test -- "$@"' tests "${files[@]}" |
  tee "$work/told.txt" || code=$?
if [ "$code" -ne 0 ]; then
  sed -n '/^ *not ok /,/^ *\.\.\.$/p' "$work/told.txt"
  exit "$code"
fi
if [ "$part" = api ]; then
  "$top/tests/api/tamper.sh" "$2" "$work/data"
  "$top/tests/api/attack.sh" "$2" "$work/data"
fi
