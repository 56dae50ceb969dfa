#!/bin/sh
# browser.sh BUILD PROGRAM: sheets of every gallery study and of odd ones, opened in a browser. Leaves with 77 where there
# is no browser, no Node.js, no npm or no network to fetch the packages from.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
program=$2
for need in node npm "${CHROMIUM:-/usr/bin/chromium}"; do
  command -v "$need" >/dev/null || { echo "no $need here: not tried"; exit 77; }
done
mkdir -p "$1/sheet"
cd "$1/sheet"
cp "$here"/*.mjs "$here"/package.json "$here"/package-lock.json .
if ! cmp -s package-lock.json fetched; then
  npm ci --ignore-scripts --no-audit --no-fund --fetch-retries=2 ||
    { echo "the packages of this test cannot be fetched: not tried"; exit 77; }
  cp package-lock.json fetched
fi
rm -rf results pages
for study in "$here"/../../studies/gallery/*.toml "$here"/odd/two_aims.toml "$here"/odd/nothing.toml; do
  "$program" size "$study" --passes 65536 --out results --quiet || [ $? -eq 1 ]
done
"$program" rate "$here"/odd/missed.toml "$here"/odd/bare.toml "$here"/odd/inch_lift.toml --out results --quiet || [ $? -eq 1 ]
"$program" sheet results/*.h5 --out pages --summary pages/all.html --quiet || { echo "built without sheets: not tried"; exit 77; }
node check.mjs pages/*.html
