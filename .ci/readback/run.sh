#!/usr/bin/env bash
# run.sh BINARY: writes every section of the test data and every starter in all
# views, reads the files with an independent npm library and compares with what
# the specs say. Needs Go, Node 20 and the npm registry. Exit 1: differences.
set -u
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)
tieover=$(cd "$(dirname "${1:?usage: run.sh BINARY}")" && pwd)/$(basename "$1")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

cp "$here"/package.json "$here"/package-lock.json "$here"/*.mjs "$work"/ || exit 1
(cd "$work" && npm ci --silent --no-audit --no-fund --ignore-scripts) || { echo "npm ci failed"; exit 1; }
(cd "$root" && go build -o "$work/expect" ./.ci/readback/expect) || exit 1

# compare NAME VIEW BEAMS FLAG…: builds the specs in one way and compares.
failed=0 count=0 specs=()
compare() {
  local name=$1 view=$2 beams=$3; shift 3
  local out=$work/out/$name
  "$tieover" build "${specs[@]}" -o "$out" --only musicxml "$@" 2>"$work/err" || { echo "$name $*: not written"; cat "$work/err"; failed=1; return; }
  local files
  mapfile -t files < <(find "$out" -name '*.musicxml' -o -name '*.mxl' | sort)
  # The score of the own view keeps the common bars; only parts have their own.
  if [ "$view" = own ]; then mapfile -t files < <(printf '%s\n' "${files[@]}" | grep /parts/); fi
  node "$work/compare.mjs" "$work/expected.json" "$view" "$beams" "${files[@]}" || failed=1
  count=$((count + ${#files[@]}))
  rm -rf "$out"
}

for spec in "$root"/testdata/sections/*/section.yaml "$root"/templates/*.yaml; do
  specs=("$spec")
  "$work/expect" "${specs[@]}" >"$work/expected.json" || { failed=1; continue; }
  # A layer whose cycles can be bars, and how many parts have none.
  layer=$(node -e 'const e=JSON.parse(require("fs").readFileSync(process.argv[1]));console.log(Object.values(e.parts).find((p)=>p.ownBars)?.lead??"")' "$work/expected.json")
  without=$(grep -o '"ownBars":false' "$work/expected.json" | wc -l)
  compare common common groups
  compare meter common meter --spelling meter --beams meter --edition play
  compare strict common groups --spelling meter --strict --marks none --breaks none
  compare groups common groups --spelling group --concert --marks sizes
  compare over common over --beam-over-barlines
  compare mxl common groups --compressed
  [ -z "$layer" ] || compare layer "layer:$layer" groups --view "layer:$layer"
  [ "$without" -gt 0 ] && continue
  compare own own groups --view own
  compare split own groups --view own --split
done

# A piece of several sections.
specs=("$root"/testdata/sections/voyage/*.yaml)
if "$work/expect" "${specs[@]}" >"$work/expected.json"; then
  compare sections common groups
  compare meter common meter --spelling meter --beams meter --edition play
  compare over common over --beam-over-barlines
  compare mxl common groups --compressed
else
  failed=1
fi

# The comparison must see a difference where there is one: here an attack that
# is a tick longer than the score has it.
spec=$root/testdata/sections/lock-keepers-round/section.yaml
"$tieover" build "$spec" -o "$work/out/spoiled" --only musicxml || failed=1
"$work/expect" "$spec" | sed 's/"length":3,"keys"/"length":4,"keys"/' >"$work/expected.json"
if node "$work/compare.mjs" "$work/expected.json" common groups "$work"/out/spoiled/score.musicxml >"$work/log"; then
  echo "a spoiled expectation was not noticed"; failed=1
fi
# And a fret that is not where its string sounds the note.
spec=$root/templates/song.yaml
"$tieover" build "$spec" -o "$work/out/frets" --only musicxml || failed=1
"$work/expect" "$spec" >"$work/expected.json"
sed -i 's|<fret>2</fret>|<fret>3</fret>|' "$work/out/frets/parts/guitar.musicxml"
if node "$work/compare.mjs" "$work/expected.json" common groups $(find "$work/out/frets" -name '*.musicxml') >"$work/log"; then
  echo "a wrong fret was not noticed"; failed=1
fi
echo "$count files read"
exit $failed
