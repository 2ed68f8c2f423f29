#!/usr/bin/env bash
# Runs a command beside a daemon that serves a fresh demo workshop:
#   tests/with_demo.sh BENCHWARDEN DEMO FOLDER COMMAND...
# FOLDER (empty or not there yet) gets the data; it is kept. The daemon is served as in a workshop:
# by HTTPS under the name shop.local, which is this machine. The command finds in its environment
#   BENCHWARDEN_DEMO    FOLDER's demo.json: address, persons with their PINs
#   BENCHWARDEN_BINARY  the program
#   BENCHWARDEN_TLS     the folder with the daemon's authority
#   BENCHWARDEN_SET_UP  the address of the page that sets a tablet up
#   BENCHWARDEN_HOME    a home folder whose browser trusts the daemon's authority
#   NODE_EXTRA_CA_CERTS the certificate of that authority
# Afterwards the daemon must end on SIGTERM within a second and with code 0, and `verify` and
# `rebuild` must find nothing.
set -euo pipefail
if [ $# -lt 4 ]; then
  sed -n '2,13s/^# \{0,1\}//p' "$0" >&2
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
cat >"$data/serve.toml" <<'END'
port = 0
https = true
name = "shop.local"
set_up_port = 0
END
"$binary" serve --config "$data/serve.toml" --data "$data" >"$log" 2>&1 &
daemon=$!
trap 'kill -KILL "$daemon" 2>/dev/null || true' EXIT
set_up=
for _ in $(seq 600); do
  set_up=$(sed -n 's/^Set up .* or \(http:[^ ]*\)$/\1/p' "$log")
  [ -z "$set_up" ] || break
  kill -0 "$daemon" 2>/dev/null || { cat "$log" >&2; fail "the daemon ended at once"; }
  sleep 0.1
done
# The line with the set-up address comes after the one with the app's.
address=$(sed -n 's/^Benchwarden .* on \(https:[^ ]*\)$/\1/p' "$log")
[ -n "$address" ] && [ -n "$set_up" ] || fail "the daemon did not say its addresses"
sed -i "s|http://127.0.0.1:0|$address|" "$data/demo.json"

# The authority is trusted as a tablet is told to, and nothing else is let through.
authority=$data/benchwarden.crt
curl --silent --show-error --fail --output "$authority" "$set_up/benchwarden.crt"
trusted=$data/home/.pki/nssdb
mkdir -p "$trusted"
certutil -d "sql:$trusted" -N --empty-password
certutil -d "sql:$trusted" -A -t "C,," -n benchwarden -i "$authority"

code=0
BENCHWARDEN_DEMO=$data/demo.json BENCHWARDEN_BINARY=$binary BENCHWARDEN_TLS=$data/tls \
  BENCHWARDEN_SET_UP=$set_up BENCHWARDEN_HOME=$data/home NODE_EXTRA_CA_CERTS=$authority \
  "$@" || code=$?

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
