#!/usr/bin/env bash
# Builds Benchwarden, makes a throw-away data folder with an invented workshop, and starts it.
#   demo/run.sh [--once] [--data DIR] [--port N]
#   --once     make everything, write the files, do not start the daemon
#   --data DIR where to put the data folder; it must be empty or not exist
#   --port N   port of the daemon (8417)
set -euo pipefail
cd "$(dirname "$0")/.."

once=no
data=
port=8417
usage() { sed -n '2,6s/^# \{0,1\}//p' "$0"; }
while [ $# -gt 0 ]; do
  case "$1" in
    --once) once=yes; shift ;;
    --data) data=${2:?--data needs a folder}; shift 2 ;;
    --port) port=${2:?--port needs a number}; shift 2 ;;
    --help | -h) usage; exit 0 ;;
    *) echo "run.sh: unknown option '$1'" >&2; usage >&2; exit 2 ;;
  esac
done
if ! [[ $port =~ ^[0-9]{1,5}$ ]] || ((10#$port < 1 || 10#$port > 65535)); then
  echo "run.sh: --port is '$port'; accepted: 1 to 65535" >&2
  exit 2
fi

if [ -n "$data" ] && [ -e "$data" ] && [ -n "$(ls -A "$data" 2>/dev/null || echo no folder)" ]; then
  echo "run.sh: $data is not an empty folder; give a new or empty one" >&2
  exit 2
fi

echo "1. Packages"
demo/packages.sh build
echo "2. Build (Release, build/benchwarden)"
cmake -G Ninja -S . -B build -DCMAKE_BUILD_TYPE=Release
cmake --build build --target benchwarden benchwarden-demo

echo "3. The invented workshop"
if [ -z "$data" ]; then data=$(mktemp -d -t benchwarden-demo.XXXXXX); fi
mkdir -p -m 700 "$data"
month=$(date +%Y-%m)
pdf="$data/waste-month-$month.pdf"
build/benchwarden-demo "$data" demo/inventory.toml "http://127.0.0.1:$port" "$pdf"
build/benchwarden report waste-month --month "$month" --data "$data" --output "$pdf"
if [ "$once" = yes ]; then exit 0; fi
echo
echo "Stop it with Ctrl-C."
exec build/benchwarden serve --data "$data" --port "$port"
