#!/usr/bin/env bash
# The one list of Debian 12 packages. Installs what is missing of the sets named:
#   demo/packages.sh build        what the program is built with
#   demo/packages.sh build test   and what its tests need besides
#   demo/packages.sh build bench  or what tests/bench/run.sh needs
set -euo pipefail

build=(
  ca-certificates g++ cmake ninja-build pkg-config
  libpoco-dev libsqlitecpp-dev libsqlite3-dev libhpdf-dev libqrencode-dev libsodium-dev libssl-dev
  nlohmann-json3-dev libtomlplusplus-dev libhowardhinnant-date-dev libcli11-dev libboost-dev
  tzdata fonts-dejavu-core
)
test=(
  libgtest-dev libgmock-dev clang clang-format clang-tidy libclang-rt-14-dev
  git curl python3
  qpdf poppler-utils chromium libnss3-tools openssl sqlite3 zbar-tools
)
bench=(
  make openssl python3 python3-matplotlib wrk
)

wanted=()
for set in "$@"; do
  case "$set" in
    build) wanted+=("${build[@]}") ;;
    test) wanted+=("${test[@]}") ;;
    bench) wanted+=("${bench[@]}") ;;
    *) echo "packages.sh: unknown set '$set'; accepted: build, test, bench" >&2; exit 2 ;;
  esac
done

missing=()
for package in "${wanted[@]}"; do
  dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' ||
    missing+=("$package")
done
# Node.js may have come from elsewhere than Debian; its own packages would then clash.
command -v node >/dev/null || missing+=(nodejs)
command -v npm >/dev/null || missing+=(npm)
if [[ " $* " == *" bench "* ]] && ! [ -e /usr/include/node/node.h ]; then
  missing+=(libnode-dev)
fi

if [ ${#missing[@]} -eq 0 ]; then
  echo "All packages needed are installed."
  exit 0
fi

as_root=()
if [ "$(id -u)" -ne 0 ]; then
  command -v sudo >/dev/null ||
    { echo "packages.sh: run as root or install sudo; missing: ${missing[*]}" >&2; exit 1; }
  as_root=(sudo)
fi
echo "Installing: ${missing[*]}"
"${as_root[@]}" apt-get update -q
"${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
  apt-get install -y -q --no-install-recommends "${missing[@]}"
