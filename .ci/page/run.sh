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

failed=0
for spec in "$here"/specs/*.yaml "$here"/../../testdata/sections/{lock-keepers-round,short-lock}/section.yaml; do
  name=$(basename "$spec" .yaml)
  [ "$name" = section ] && name=$(basename "$(dirname "$spec")")
  "$tieover" build "$spec" --only page,json -o "$work/$name" || { failed=1; continue; }
  node "$work/page.mjs" "$work/$name/page.html" "$out" || failed=1
  node "$work/player.mjs" "$work/$name/page.html" "$work/$name/report.json" || failed=1
done
"$tieover" build "$here"/specs/two/a.yaml "$here"/specs/two/b.yaml --only page -o "$work/two" && node "$work/page.mjs" "$work/two/page.html" "$out" || failed=1
node "$work/lesson.mjs" "$tieover" "$work" "$out" || failed=1
node "$work/recording.mjs" "$tieover" "$work" || failed=1
node "$work/tap.mjs" "$tieover" "$work" || failed=1
"$tieover" worksheet "$here"/../../testdata/sections/lock-keepers-round/section.yaml -o "$work/sheets" || failed=1
node "$work/access.mjs" "$tieover" "$work/lock-keepers-round/page.html" "$work/sheets/worksheet.html" || failed=1
node "$work/served.mjs" "$tieover" "$work" || failed=1
exit $failed
