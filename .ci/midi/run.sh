#!/usr/bin/env bash
# run.sh TIEOVER: builds MIDI files with the given program, reads them back with a library that shares no code with
# it, and compares them with cases written by hand and with the reports of the same specs.
set -euo pipefail
tieover=$(realpath "$1")
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

cp "$here"/*.mjs "$work"
echo '{"private": true, "type": "module"}' >"$work/package.json"
(cd "$work" && npm install --silent --no-audit --no-fund --ignore-scripts midi-file@1.2.4)

failed=0
for case in "$here"/cases/*.json; do
  name=$(basename "$case" .json)
  mapfile -t args < <(node -e 'const c = JSON.parse(require("fs").readFileSync(process.argv[1])); console.log([...c.files, ...c.flags].join("\n"))' "$case")
  (cd "$here/cases" && "$tieover" build "${args[@]}" --only midi -o "$work/$name") || { failed=1; continue; }
  node "$work/compare.mjs" "$work/$name/section.mid" "$case" || failed=1
done
for spec in "$here"/../../testdata/sections/*/section.yaml "$here"/../page/specs/*.yaml; do
  out="$work/$(basename "$(dirname "$spec")")-$(basename "$spec" .yaml)"
  "$tieover" build "$spec" --only midi,json -o "$out" || { failed=1; continue; }
  node "$work/compare.mjs" "$out/section.mid" "$out/report.json" "$spec" || failed=1
done
exit $failed
