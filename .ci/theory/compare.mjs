// compare.mjs TIEOVER: see run.sh. The library's entry for require points to a
// missing file in one of these versions, so the built modules are named.
import { execFileSync } from 'node:child_process'
import { euclid } from './node_modules/@tonaljs/rhythm-pattern/dist/index.mjs'
import { get as signature } from './node_modules/@tonaljs/time-signature/dist/index.mjs'
import { get as noteValue } from './node_modules/@tonaljs/duration-value/dist/index.mjs'

const tieover = process.argv[2]
const ask = (...args) => JSON.parse(execFileSync(tieover, [...args, '--json'], { encoding: 'utf8', maxBuffer: 1 << 28 }))

let checks = 0
const wrong = []
function same(what, want, got) {
  checks++
  const [a, b] = [JSON.stringify(want), JSON.stringify(got)]
  if (a !== b) wrong.push(`${what}: the library says ${a}, tieover ${b}`)
}

// The least rotation of a list of numbers, found by trying all.
function necklace(list) {
  const all = list.map((_, k) => [...list.slice(k), ...list.slice(0, k)])
  return all.sort((x, y) => { for (let i = 0; i < x.length; i++) if (x[i] !== y[i]) return x[i] - y[i]; return 0 })[0]
}

// Gaps between the onsets of a list of 0 and 1.
function gaps(cells) {
  const onsets = cells.flatMap((x, i) => (x ? [i] : []))
  return onsets.map((at, i) => (i + 1 < onsets.length ? onsets[i + 1] : cells.length + onsets[0]) - at)
}

// 1. Euclid's rhythms differ by rotation between algorithms, not as necklaces.
// Any k groups of n pulses in all make tieover name E(k,n); an uneven set of
// groups is called Euclidean only if its necklace is the library's.
for (let n = 2; n <= 24; n++) {
  const groupings = []
  for (let k = 1; k <= n; k++) groupings.push([...Array(k - 1).fill(1), n - k + 1])
  const layers = ask('realign', ...groupings.map((g) => g.join('+'))).layers
  layers.forEach((layer, i) => {
    const want = necklace(gaps(euclid(n, i + 1)))
    const pattern = layer.patterns[0]
    same(`E(${i + 1},${n})`, want, necklace(pattern.euclid))
    same(`${pattern.groups} is Euclidean`, JSON.stringify(want) === JSON.stringify(necklace(groupings[i])), pattern.euclidean)
    same(`necklace of ${pattern.groups}`, necklace(groupings[i]), pattern.necklace)
  })
}

// 2. Time signatures: how long a bar is, and where its beats fall.
const fraction = (text) => { const [n, d = 1] = text.split('/').map(Number); return n / d }
const meters = ['4/4', '3/4', '2/4', '5/4', '2/2', '6/8', '9/8', '12/8', '9/16', '3+2/8', '2+3/8', '3+2+2/8', '2+2+3/8', '3+2+3/8', '3+3+2/8', '2+2+2+3/16', '2+2+3+2+2/16', '5+4/4']
for (const meter of meters) {
  const s = signature(meter)
  const doc = ask('realign', '1', '--pulse', `1/${s.lower}`, '--meter', meter)
  same(`bar of ${meter}`, s.upper / s.lower, fraction(doc.length) / doc.bars)
  same(`${meter} is additive`, s.additive.length > 1, doc.meter.includes('+'))
  const until = ask('realign', String(s.upper), '1', '--pulse', `1/${s.lower}`, '--meter', meter)
  const beats = []
  for (const a of until.layers[1].attacks) if (a.bar === 1 && a.past === '0') beats.push(fraction(a.onset) * s.lower)
  let want
  if (s.additive.length > 0) {
    let at = 0
    want = s.additive.map((n) => { at += n; return at - n })
  } else {
    // The library calls only meters over 8 compound; over 16 tieover does too.
    const per = s.type === 'compound' || (s.lower === 16 && s.upper % 3 === 0 && s.upper > 3) ? 3 : 1
    want = Array.from({ length: s.upper / per }, (_, i) => i * per)
  }
  same(`beats of ${meter}`, want, beats)
}

// 3. Note values: each name, plain and dotted, American and British.
const american = ['whole', 'half', 'quarter', 'eighth', 'sixteenth', 'thirty-second', 'sixty-fourth']
const british = ['semibreve', 'minim', 'crotchet', 'quaver', 'semiquaver', 'demisemiquaver', 'hemidemisemiquaver']
for (const names of [american, british]) {
  for (const name of names) {
    for (const dots of ['', '.']) {
      const v = noteValue(name + dots)
      if (dots && name === names[0]) continue // a dotted whole is longer than a pulse may be
      same(name + dots, v.value, fraction(ask('fit', '1', '--pulse', (dots ? 'dotted ' : '') + name, '--bars', '1').pulse))
    }
  }
}

for (const line of wrong) console.error(line)
console.log(`${checks} values compared with a theory library, ${wrong.length} differ`)
process.exit(wrong.length === 0 ? 0 : 1)
