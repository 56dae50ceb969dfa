#!/bin/sh
# run.sh BUILD: checks the types of the script that draws the sheet, then looks at invented pages and their saved figures,
# made with what the folder BUILD holds. Needs node, npm and a browser (CHROMIUM, else /usr/bin/chromium).
set -eu
here=$(cd "$(dirname "$0")" && pwd)
made=$(cd "$1" && pwd)/studies/sheet
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$here"
[ -d node_modules ] || npm ci --ignore-scripts --no-audit --no-fund
node_modules/.bin/tsc -p tsconfig.json
node samples.mjs "$made" "$work"
for data in "$work"/*.json; do
  node "$made/figures.cjs" <"$data" >"$work/figures.out"
  node files.mjs "$data" "$work/figures.out"
done
node check.mjs "$work"/*.html
node power.mjs "$work/press.html"
