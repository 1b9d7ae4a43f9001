#!/usr/bin/env bash
# run.sh TIEOVER: compares what the given program computes with a general music
# theory library that shares no code with it: Euclidean rhythms as necklaces,
# time signatures, names and lengths of note values.
set -euo pipefail
tieover=$(realpath "$1")
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

cp "$here"/package.json "$here"/package-lock.json "$here"/*.mjs "$work"
(cd "$work" && npm ci --silent --no-audit --no-fund --ignore-scripts)
node "$work/compare.mjs" "$tieover"
