#!/usr/bin/env bash
# From a bare Debian 12 to passed tests: installs what is missing, builds and runs every test; ends with ctest's summary.
#   bash tests/run.sh               the default run
#   bash tests/run.sh --sanitize    first the same tests under the address and undefined-behaviour sanitizers
set -euo pipefail
cd "$(dirname "$0")/.."
. studies/packages.sh
need $build_packages $test_packages

build_and_test() {  # build_and_test FOLDER CMAKE-OPTION…
  local folder=$1
  shift
  cmake -S . -B "$folder" "$@" >/dev/null
  cmake --build "$folder" --parallel "$(nproc)"
  ctest --test-dir "$folder" --output-on-failure --parallel "$(nproc)"
}

if [ "${1:-}" = --sanitize ]; then
  # Little optimisation and lines alone for debugging: half the time to compile, and the tests hardly slower.
  build_and_test build-sanitize -DCMAKE_BUILD_TYPE=RelWithDebInfo -DCMAKE_CXX_FLAGS_RELWITHDEBINFO="-O1 -g1 -DNDEBUG" \
    -DSCREWTINY_SANITIZE=ON
fi
build_and_test build-tests -DCMAKE_BUILD_TYPE=Release
