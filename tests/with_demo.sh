#!/usr/bin/env bash
# Runs a command beside a daemon that serves a fresh demo workshop:
#   tests/with_demo.sh BENCHWARDEN DEMO FOLDER COMMAND...
# FOLDER (empty or not there yet) gets the data; it is kept. The command finds in its environment
#   BENCHWARDEN_DEMO    FOLDER's demo.json: address, persons with their PINs
#   BENCHWARDEN_BINARY  the program
# Afterwards the daemon must end on SIGTERM within a second and with code 0, and `verify` and
# `rebuild` must find nothing.
set -euo pipefail
if [ $# -lt 4 ]; then
  sed -n '2,8s/^# \{0,1\}//p' "$0" >&2
  exit 2
fi
top=$(cd "$(dirname "$0")/.." && pwd)
binary=$(realpath "$1")
demo=$(realpath "$2")
mkdir -p "$3"
data=$(realpath "$3")
shift 3
chmod 700 "$data"

fail() { echo "with_demo.sh: $1" >&2; exit 1; }
now_ms() { echo $(($(date +%s%N) / 1000000)); }

"$demo" "$data" "$top/demo/inventory.toml" http://127.0.0.1:0 "$data/report.pdf" >/dev/null

log=$data/serve.log
: >"$log"
"$binary" serve --data "$data" --port 0 >"$log" 2>&1 &
daemon=$!
trap 'kill -KILL "$daemon" 2>/dev/null || true' EXIT
address=
for _ in $(seq 600); do
  address=$(sed -n 's/^Benchwarden .* on \(http:[^ ]*\)$/\1/p' "$log")
  [ -z "$address" ] || break
  kill -0 "$daemon" 2>/dev/null || { cat "$log" >&2; fail "the daemon ended at once"; }
  sleep 0.1
done
[ -n "$address" ] || fail "the daemon did not say its address"
sed -i "s|http://127.0.0.1:0|$address|" "$data/demo.json"

code=0
BENCHWARDEN_DEMO=$data/demo.json BENCHWARDEN_BINARY=$binary "$@" || code=$?

kill -0 "$daemon" 2>/dev/null || { cat "$log" >&2; fail "the daemon died"; }
started=$(now_ms)
kill -TERM "$daemon"
ended=0
wait "$daemon" || ended=$?
took=$(($(now_ms) - started))
trap - EXIT
if [ "$code" -ne 0 ]; then
  sed 's/^/daemon: /' "$log" >&2
  exit "$code"
fi
[ "$ended" -eq 0 ] || fail "the daemon ended with code $ended"
[ "$took" -lt 1000 ] || fail "the daemon took $took ms to end"
"$binary" verify --data "$data" || fail "verify found faults"
"$binary" rebuild --data "$data" || fail "rebuild found a difference"
echo "The daemon ended $took ms after SIGTERM; verify and rebuild agree with it."
