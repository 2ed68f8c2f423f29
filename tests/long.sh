#!/usr/bin/env bash
# What takes longer than the test command may: the same tests with more rounds, libFuzzer for ten
# minutes, the soak. Run it before a release, after tests/run.sh, which builds what is
# used here. Ends at the first part that fails; tests/long.sh PART... runs these parts alone.
set -euo pipefail
cd "$(dirname "$0")/.."

all=(books demo disk killed damaged fuzz soak browser)
parts=("$@")
[ ${#parts[@]} -gt 0 ] || parts=("${all[@]}")
export BENCHWARDEN=$PWD/build/benchwarden
export BENCHWARDEN_DEMO_MAKER=$PWD/build/benchwarden-demo

python_tests() { # folder, file
  /usr/bin/python3 -B -m unittest discover -s "$1" -p "$2"
}

for part in "${parts[@]}"; do
  printf '\n== %s (%s s)\n' "$part" "$SECONDS"
  case $part in
    books) # larger books of chance
      BENCHWARDEN_RANDOM_ENTRIES=2000 build-sanitize/test_workshop --gtest_filter='*BookOfAllKinds*'
      ;;
    demo) build-sanitize/test_demo ;; # by other last days, which the test command tries in Release
    disk) # power cuts, and every call of the disk in turn
      BENCHWARDEN_POWER_CUTS=1000 BENCHWARDEN_EVERY_CALL=1 BENCHWARDEN_FULL_DISKS=100 \
        build-sanitize/test_faults
      ;;
    killed) BENCHWARDEN_ROUNDS=500 python_tests tests/faults 'killed_daemon_test.py' ;;
    damaged) BENCHWARDEN_DAMAGES=20 python_tests tests/faults 'damaged_files_test.py' ;;
    fuzz) tests/fuzz/run.sh 600 ;;
    soak) tests/soak/run.sh 30 ;;
    browser) # every screen in all sizes and colours, by every role
      BENCHWARDEN_LONG=1 tests/from_outside.sh browser "$BENCHWARDEN" "$BENCHWARDEN_DEMO_MAKER"
      ;;
    *) echo "long.sh: unknown part '$part'; accepted: ${all[*]}" >&2; exit 2 ;;
  esac
done
