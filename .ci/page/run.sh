#!/usr/bin/env bash
# run.sh TIEOVER [OUT_DIR]: builds pages from specs with the given program and holds each to its promises in
# headless Chromium. Node packages go into a temporary folder; pictures into OUT_DIR, if given.
set -euo pipefail
tieover=$(realpath "$1")
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
out=${2:-$work/out}

cp "$here"/*.mjs "$here"/clock.js "$work"
echo '{"private": true, "type": "module"}' >"$work/package.json"
(cd "$work" && npm install --silent --no-audit --no-fund --ignore-scripts playwright-core@1.65.1 axe-core@4.14.1)

# What a sound card's clock does not hold up runs beside other such scripts, one for each processor: the player's clock is
# turned by hand, and a page is waited for. The others listen to a real clock and run one after another.
mkdir "$work/failed"
beside() { # beside NAME COMMAND...: its output comes whole, when it ends
  while [ "$(jobs -rp | wc -l)" -ge "$(nproc)" ]; do wait -n || true; done
  { "${@:2}" >"$work/$1.log" 2>&1 || touch "$work/failed/$1"; cat "$work/$1.log"; } &
}
alone() { "$@" || touch "$work/failed/alone"; }

for spec in "$here"/specs/*.yaml "$here"/../../testdata/sections/{lock-keepers-round,short-lock}/section.yaml; do
  name=$(basename "$spec" .yaml)
  [ "$name" = section ] && name=$(basename "$(dirname "$spec")")
  "$tieover" build "$spec" --only page,json -o "$work/$name" || { touch "$work/failed/$name"; continue; }
  beside "page-$name" node "$work/page.mjs" "$work/$name/page.html" "$out"
  beside "player-$name" node "$work/player.mjs" "$work/$name/page.html" "$work/$name/report.json"
done
alone "$tieover" build "$here"/specs/two/a.yaml "$here"/specs/two/b.yaml --only page -o "$work/two"
beside page-two node "$work/page.mjs" "$work/two/page.html" "$out"
alone "$tieover" worksheet "$here"/../../testdata/sections/lock-keepers-round/section.yaml -o "$work/sheets"
beside access node "$work/access.mjs" "$tieover" "$work/lock-keepers-round/page.html" "$work/sheets/worksheet.html"
wait
alone node "$work/lesson.mjs" "$tieover" "$work" "$out"
alone node "$work/recording.mjs" "$tieover" "$work"
alone node "$work/tap.mjs" "$tieover" "$work"
alone node "$work/served.mjs" "$tieover" "$work"
[ -z "$(ls "$work/failed")" ] || { echo "failed: $(ls -m "$work/failed")"; exit 1; }
