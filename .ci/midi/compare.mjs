// compare.mjs FILE.mid EXPECTED.json [SPEC.yaml]: reads a MIDI file with the npm library midi-file and compares it with
// what a hand-written case or a report.json of the same spec says; what repeats sounds as often as it says. A staccato attack sounds half of its
// length; the report does not say which those are, so where the spec has any both lengths will do. Nor does it say what is rolled, trilled or
// led into: where the spec has such signs, a layer may have more strokes than attacks (within). Exit 0 when nothing differs.
import fs from 'node:fs';
import { parseMidi } from 'midi-file';

const [file, expected, spec] = process.argv.slice(2);
const signs = spec ? fs.readFileSync(spec, 'utf8') : '';
const staccato = signs.includes('staccato');
const strokes = /\b(roll|tremolo|trill|flam|drag)\b|[A-G][#b]*\d\//.test(signs);
const midi = parseMidi(fs.readFileSync(file));
const want = JSON.parse(fs.readFileSync(expected, 'utf8'));
const wrong = [];
const same = (a, b, what) => {
  const [x, y] = [JSON.stringify(a), JSON.stringify(b)];
  if (x === y) return;
  if (Array.isArray(a) && Array.isArray(b)) {
    const i = [...Array(Math.max(a.length, b.length)).keys()].find((k) => JSON.stringify(a[k]) !== JSON.stringify(b[k]));
    wrong.push(`${what}: ${a.length} wanted, ${b.length} found; at ${i} wanted ${JSON.stringify(a[i])}, found ${JSON.stringify(b[i])}`);
  } else wrong.push(`${what}: wanted ${x}, found ${y}`);
};

const gcd = (a, b) => (b ? gcd(b, a % b) : a);
const quarter = midi.header.ticksPerBeat;
const fraction = (ticks) => { // in whole notes, exactly
  const g = gcd(ticks, 4 * quarter) || 1;
  return 4 * quarter === g ? `${ticks / g}` : `${ticks / g}/${(4 * quarter) / g}`;
};
const text = (s) => new TextDecoder('utf-8', { fatal: true }).decode(Uint8Array.from(s, (c) => c.charCodeAt(0)));

// read gathers what one track says.
function read(events) {
  const t = { name: null, tempos: [], meters: [], keys: [], markers: [], programs: [], pans: [], channels: new Set(), notes: [], end: null };
  const open = new Map();
  let now = 0;
  for (const e of events) {
    now += e.deltaTime;
    const key = `${e.channel} ${e.noteNumber}`;
    if (e.channel !== undefined) t.channels.add(e.channel);
    switch (e.type) {
      case 'trackName': t.name = text(e.text); break;
      case 'copyrightNotice': t.rights = text(e.text); break;
      case 'setTempo': t.tempos.push([fraction(now), e.microsecondsPerBeat]); break;
      case 'timeSignature': t.meters.push([fraction(now), e.numerator, e.denominator]); break;
      case 'keySignature': t.keys.push([fraction(now), e.key, e.scale]); break;
      case 'marker': t.markers.push([fraction(now), text(e.text)]); break;
      case 'programChange': t.programs.push(e.programNumber); break;
      case 'controller': if (e.controllerType === 10) t.pans.push(e.value); break;
      case 'noteOn':
        if (open.has(key)) wrong.push(`${t.name}: key ${e.noteNumber} is struck again while it sounds, at ${fraction(now)}`);
        open.set(key, [now, e.velocity]);
        break;
      case 'noteOff': {
        const [on, velocity] = open.get(key) || [];
        if (on === undefined) { wrong.push(`${t.name}: key ${e.noteNumber} ends without a beginning`); break; }
        open.delete(key);
        t.notes.push({ on, note: [fraction(on), fraction(now - on), e.noteNumber, velocity] });
        break;
      }
      case 'endOfTrack': t.end = fraction(now); break;
    }
  }
  if (open.size) wrong.push(`${t.name}: ${open.size} notes never end`);
  if (t.end === null) wrong.push(`${t.name}: the track has no end`);
  t.notes.sort((a, b) => a.on - b.on || a.note[2] - b.note[2]);
  t.notes = t.notes.map((n) => n.note);
  return t;
}
const tracks = midi.tracks.map(read);
const [conductor, ...voices] = tracks;
same(1, midi.header.format, 'format');
same(tracks.length, midi.header.numTracks, 'tracks');
for (const v of voices) same([[], [], [], []], [v.tempos, v.meters, v.keys, v.markers], `${v.name}: what belongs to the first track`);

function byHand() {
  same(want.title, conductor.name, 'title');
  same(want.rights, conductor.rights, 'rights');
  same(want.tempos, conductor.tempos, 'tempos');
  same(want.meters, conductor.meters, 'meters');
  same(want.keys ?? [], conductor.keys, 'keys');
  same(want.markers, conductor.markers, 'markers');
  same(want.tracks.map((t) => t.name), voices.map((t) => t.name), 'names');
  for (const t of tracks) same(want.end, t.end, `${t.name}: end`);
  want.tracks.forEach((w, i) => {
    const t = voices[i];
    same(w.drums ? [] : [w.program], t.programs, `${w.name}: program`);
    same([w.pan], t.pans, `${w.name}: pan`);
    same(w.drums ? [9] : [...t.channels].filter((c) => c !== 9).slice(0, 1), [...t.channels], `${w.name}: channel`);
    if (w.notes) same(w.notes, t.notes, `${w.name}: notes`);
    if (w.onsets) same(w.onsets, t.notes.map((n) => [n[0], n[2]]), `${w.name}: onsets`);
  });
  const pitched = voices.filter((t) => !t.channels.has(9)).flatMap((t) => [...t.channels]);
  same(pitched.length, new Set(pitched).size, 'channels that are used once');
}

const steps = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
function keyOf(pitch) { // 60 for C4; null for the name of a drum
  const m = /^([A-G])(#{0,2}|b{0,2})(-?\d+)$/.exec(pitch);
  return m ? 12 * (+m[3] + 1) + steps[m[1]] + m[2].length * (m[2][0] === 'b' ? -1 : 1) : null;
}
const number = (f) => { const [n, d] = f.split('/'); return +n / +(d ?? 1); };

// played writes what a section says out: as often as it is played, from the end of its last bar, which is its length; what comes before bar 1,
// at negative times, is played once.
const pickup = number(want.pickup ?? '0');
const played = (list, time, moved) => [...Array(want.end === 'repeat' ? want.times ?? 2 : 1).keys()].flatMap((pass) => list.filter((x) => !pass || number(time(x)) >= 0).map((x) => moved(x,
  fraction(Math.round((pickup + number(time(x)) + pass * number(want.length)) * 4 * quarter)))));

// within asks that each attack begins with its own sound, and that whatever else is struck is a stroke of an attack that still lasts, at its
// pitch or up to a major second above (a trill), or leads into the next attack, at most an eighth before it (grace notes).
function within(sounds, found, name) {
  const at = (n) => number(n[0]);
  const struck = new Set(found.map((n) => `${n[0]} ${n[2]}`));
  for (const s of sounds) if (!struck.has(`${s[0]} ${s[2]}`)) wrong.push(`${name}: nothing begins at ${s[0]} with ${s[2]}`);
  const near = (s, n) => n[2] === s[2] || (n[2] > s[2] && n[2] <= s[2] + 2);
  for (const n of found) {
    const lasts = sounds.some((s) => at(s) <= at(n) && at(n) < at(s) + number(s[1]) && near(s, n));
    const leads = sounds.some((s) => at(s) - 1 / 8 <= at(n) && at(n) < at(s));
    if (!lasts && !leads) wrong.push(`${name}: ${n[2]} at ${n[0]} belongs to no attack`);
  }
}

function byReport() {
  same(want.title, conductor.name, 'title');
  same(want.layers.map((l) => l.name), voices.map((t) => t.name), 'layers');
  if (pickup) { // a meter of its length, then the section's
    const [top, bottom] = want.pickup.split('/').map(Number), scale = Math.max(4, bottom ?? 1) / (bottom ?? 1), [count, unit] = want.meter.split('/').map(Number);
    same([['0', top * scale, (bottom ?? 1) * scale], [want.pickup, count, unit]], conductor.meters.slice(0, 2), 'the meter of the pickup');
  }
  const tempos = played(want.speeds, (t) => t.time, (t, time) => ({ ...t, time })).map((t) => [t.time, Math.round(6e7 / number(t.quarters))]);
  same(tempos.filter((t, i) => !i || t[1] !== tempos[i - 1][1]), conductor.tempos, 'tempos');
  same(played(want.realignments.filter((r) => r.label).map((r) => [r.time, r.label]), (m) => m[0], (m, time) => [time, m[1]]),
    conductor.markers.filter((m) => want.realignments.some((r) => r.label === m[1])), 'realignments');
  want.layers.forEach((l, i) => {
    const sounds = played(l.attacks, (a) => a.onset, (a, onset) => ({ ...a, onset })).flatMap((a) => {
      const keys = a.pitches.map(keyOf);
      return keys.length && keys.every((k) => k !== null)
        ? [...new Set(keys)].sort((x, y) => x - y).map((k) => [a.onset, a.length, k]) : [[a.onset, a.length, 'drum']];
    });
    const found = voices[i].notes.map((n) => [n[0], n[1], voices[i].channels.has(9) ? 'drum' : n[2]]);
    if (staccato) {
      found.forEach((f, k) => { if (sounds[k] && 2 * number(f[1]) === number(sounds[k][1])) f[1] = sounds[k][1]; });
    }
    if (strokes && found.length > sounds.length) within(sounds, found, l.name);
    else same(sounds, found, `${l.name}: attacks`);
    const loud = new Set(l.attacks.filter((a) => a.accent).map((a) => a.onset)), soft = l.attacks.some((a) => !a.accent);
    if (loud.size && soft) {
      const least = Math.min(...voices[i].notes.filter((n) => loud.has(n[0])).map((n) => n[3]));
      if (!voices[i].notes.some((n) => !loud.has(n[0]) && n[3] < least)) wrong.push(`${l.name}: accents are not louder`);
    }
  });
}
if (want.tracks) byHand(); else byReport();
for (const line of wrong) console.log(`${file}: ${line}`);
if (!wrong.length) console.log(`${file}: ${voices.reduce((n, t) => n + t.notes.length, 0)} notes, tempos, markers as wanted`);
process.exit(wrong.length ? 1 : 0);
