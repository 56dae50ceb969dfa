#!/usr/bin/env bash
# From a bare Debian 12 to a first answer: installs what is missing, builds a release and sizes a screw.
set -euo pipefail
cd "$(dirname "$0")/.."
. studies/packages.sh
need $build_packages
cmake -S . -B build -DCMAKE_BUILD_TYPE=Release -DSCREWTINY_TESTS=OFF >/dev/null
cmake --build build --parallel "$(nproc)" --target screwtiny
build/screwtiny size studies/gallery/orchard_press.toml --again
