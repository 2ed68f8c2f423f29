#!/usr/bin/env bash
# The program as it is shipped under everything at once for a while: descriptors, threads and
# memory at rest must stay what they were after warming up.
#   tests/soak/run.sh [MINUTES]
# MINUTES is 10 without a word. Needs build/benchwarden and build/benchwarden-demo, or what
# BENCHWARDEN and BENCHWARDEN_DEMO_MAKER name.
set -euo pipefail
top=$(cd "$(dirname "$0")/../.." && pwd)
minutes=${1:-10}
if ! [[ $minutes =~ ^([4-9]|[1-9][0-9]+)$ ]]; then
  echo "run.sh: MINUTES is '$minutes'; accepted: a whole number from 4 on" >&2
  exit 2
fi
export BENCHWARDEN=${BENCHWARDEN:-$top/build/benchwarden}
export BENCHWARDEN_DEMO_MAKER=${BENCHWARDEN_DEMO_MAKER:-$top/build/benchwarden-demo}
exec /usr/bin/python3 -B "$top/tests/soak/soak.py" "$minutes"
