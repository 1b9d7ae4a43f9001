// node compare.mjs expected.json VIEW BEAMS FILE…
// Compares written scores with what the spec says: attacks, bars, ties,
// tuplets, beams. VIEW is common, own or layer:NAME; BEAMS is groups, meter, or
// over for beams by groups that may run over barlines.
// Prints differences and exits 1 if there are any.
import { readFileSync } from 'node:fs';
import { read } from './read.mjs';

const FLAGGED = ['eighth', '16th', '32nd', '64th', '128th'];
const [expectedFile, view, how, ...files] = process.argv.slice(2);
const beams = how === 'over' ? 'groups' : how;
const expected = JSON.parse(readFileSync(expectedFile, 'utf8'));
const differences = [];
const seen = new Set();
let attacks = 0, notes = 0;

for (const file of files) {
  const differ = (what) => differences.push(`${file}: ${what}`);
  let score;
  try {
    score = read(file, expected.grid);
  } catch (e) {
    differ(`cannot be read: ${e.message}`);
    continue;
  }
  if (score.title !== expected.title) differ(`title ${score.title}, not ${expected.title}`);
  for (const part of score.parts) {
    const want = expected.parts[part.name];
    if (!want) {
      if (/composite\.(musicxml|mxl)$/.test(file)) checkComposite(part, differ);
      else differ(`part ${part.name} is not in the spec`);
      continue;
    }
    seen.add(part.name);
    const say = (what) => differ(`${part.name}: ${what}`);
    checkBars(part, want, say);
    if (want.slashes) continue; // not all notes are there
    const heard = checkTies(part, say);
    checkAttacks(heard, want, say);
    checkTuplets(part, want, say);
    checkBeams(part, say);
    if (part.stopped) checkTablature(part, say);
    else if (want.strings && /\/parts\//.test(file)) say('tablature is missing');
    attacks += heard.length;
    notes += part.notes.length;
  }
}
for (const name of Object.keys(expected.parts)) {
  if (!seen.has(name)) differences.push(`${expected.title}: part ${name} is in no file`);
}
for (const d of differences.slice(0, 40)) console.log(d);
if (differences.length > 40) console.log(`and ${differences.length - 40} more`);
console.log(`${expected.title}, ${view}, beams by ${how}: ${files.length} files, ${notes} notes, ${attacks} attacks, ${differences.length} differences`);
process.exit(differences.length > 0 ? 1 : 0);

// Bars: in the common view exactly the spec's; in a layer's view each whole
// cycle of the layer begins a bar; in any view they tile the piece.
function checkBars(part, want, say) {
  const last = expected.bars.at(-1);
  const total = last.start + last.length;
  const end = part.bars.at(-1).start + part.bars.at(-1).length;
  if (view === 'common') {
    if (part.bars.length !== expected.bars.length) say(`${part.bars.length} bars, not ${expected.bars.length}`);
    part.bars.forEach((b, i) => {
      const e = expected.bars[i];
      if (e && (b.start !== e.start || b.length !== e.length || b.number !== String(e.number) || b.signature !== e.signature)) {
        say(`bar ${JSON.stringify(b)}, not ${JSON.stringify(e)}`);
      }
    });
    return;
  }
  if (end < total && expected.bars.length > 1) say(`the bars end at ${end}, before ${total}`);
  const starts = new Set(part.bars.map((b) => b.start));
  const whose = view === 'own' ? want.lead : view.slice('layer:'.length);
  const owner = view === 'own' ? want : Object.values(expected.parts).find((p) => p.starts[whose]);
  for (const cycle of owner.starts[whose]) {
    if (cycle.whole && !starts.has(cycle.at)) say(`the cycle of ${whose} at ${cycle.at} begins no bar`);
  }
}

// The composite strikes whenever any layer does, and then only.
function checkComposite(part, say) {
  const want = [...new Set(Object.values(expected.parts).flatMap((p) => p.attacks.map((a) => a.at)))].sort((a, b) => a - b);
  const got = checkTies(part, say).map((h) => h.at);
  if (want.join() !== got.join()) say(`the composite strikes at ${got}, not at ${want}`);
}

// Ties: a note tied on must go on at once, in its voice, with the same keys.
// Returns the attacks: notes with what is tied to them, small notes left out.
function checkTies(part, say) {
  const heard = [], open = new Map();
  for (const n of part.notes) {
    if (n.small) continue;
    const tied = open.get(n.voice);
    open.delete(n.voice);
    if (n.tieIn) {
      if (!tied || tied.at + tied.length !== n.at || tied.keys.join() !== n.keys.join()) {
        say(`bar ${n.bar}: a tie into ${n.keys} at ${n.at} comes from nowhere`);
        continue;
      }
      tied.length += n.length;
      tied.notes.push(n);
      n.attack = tied;
    } else {
      if (tied) say(`bar ${n.bar}: the tie from ${tied.at} leads to a note that is struck`);
      n.attack = { at: n.at, length: n.length, keys: n.keys, accent: n.accent, notes: [n] };
      heard.push(n.attack);
    }
    if (n.tieOut) open.set(n.voice, n.attack);
  }
  for (const tied of open.values()) say(`the tie from ${tied.at} leads nowhere`);
  return heard;
}

// Attacks: the same onsets, lengths, keys and accents; of a layer that cuts its
// tails at barlines only the onsets. Each gets its layer, group and ratio.
function checkAttacks(heard, want, say) {
  const shape = (a) => [a.at, want.cutTail ? '' : a.length, [...a.keys].sort((x, y) => x - y).join('+'), a.accent].join(' ');
  const left = new Map();
  for (const a of want.attacks) left.set(shape(a), [...(left.get(shape(a)) ?? []), a]);
  for (const h of heard) {
    const match = left.get(shape(h))?.shift();
    if (!match) say(`bar ${h.notes[0].bar}: attack ${shape(h)} is not in the spec`);
    else Object.assign(h, { layer: match.layer, group: match.group, ratio: match.ratio });
    const other = match?.on && h.notes.find((n) => n.on !== match.on);
    if (other) say(`bar ${other.bar}: ${other.keys} is played on ${other.on}, not on ${match.on}`);
  }
  for (const list of left.values()) for (const a of list) say(`attack ${shape(a)} is not in the score`);
}

// Tablature: each note of the staff above once, on a string that sounds it at its fret;
// what is tied in is hidden.
function checkTablature(part, say) {
  const shape = (bar, at, length, key, shown) => `bar ${bar}: ${key} at ${at} for ${length}${shown ? '' : ', hidden'}`;
  const above = part.notes.filter((n) => !n.small).flatMap((n) => n.keys.map((k) => shape(n.bar, n.at, n.length, k, !n.tieIn)));
  const below = part.stopped.map((n) => shape(n.bar, n.at, n.length, n.key, n.shown));
  for (const a of above) if (!below.includes(a)) say(`tablature lacks ${a}`);
  for (const b of below) if (!above.includes(b)) say(`tablature has ${b}`);
  for (const n of part.stopped) if (n.by !== n.key) say(`bar ${n.bar}: a string that sounds ${n.by} for ${n.key}`);
}

// Tuplets: only where a layer's pulse asks for one, with its number; an onset
// that halving a whole note never reaches lies in one; none over a barline.
function checkTuplets(part, want, say) {
  const open = new Map();
  for (const n of part.notes) {
    if (n.ratio !== 1 && !want.ratios.includes(n.ratio)) say(`bar ${n.bar}: a tuplet of ${n.ratio}`);
    if (n.attack?.ratio > 1 && n.ratio !== 1 && n.ratio !== n.attack.ratio) say(`bar ${n.bar}: a tuplet of ${n.ratio} for a pulse in ${n.attack.ratio}`);
    const binary = (t) => Number.isInteger((t * 1024) / expected.grid);
    if (n.ratio === 1 && !(binary(n.at) && binary(n.length))) say(`bar ${n.bar}: a note at ${n.at} of ${n.length} needs a tuplet`);
    if (n.ratio === 1 && (n.opens || n.closes)) say(`bar ${n.bar}: a tuplet sign on a plain note`);
    if (n.opens) open.set(n.voice, n);
    const since = open.get(n.voice);
    if (n.ratio !== 1 && since && since.bar !== n.bar) say(`bar ${n.bar}: a tuplet is open over the barline`);
    if (n.closes) open.delete(n.voice);
  }
}

// Beams. By groups: a beam joins notes of one group, or notes that each are all
// there is of their groups; neighbours of one group in one bar are joined. By
// the meter: a beam stays inside its span of the bar.
function checkBeams(part, say) {
  const voices = new Map();
  for (const n of part.notes.filter((n) => !n.small)) voices.set(n.voice, [...(voices.get(n.voice) ?? []), n]);
  for (const list of voices.values()) {
    const runs = [];
    list.forEach((n, i) => {
      if (n.beam === 'begin') runs.push([n]);
      else if (n.beam) runs.at(-1)?.push(n);
      if (n.beam && !FLAGGED.includes(n.type)) say(`bar ${n.bar}: a beam on a ${n.type}`);
      const before = list[i - 1];
      if (beams === 'groups' && before && before.bar === n.bar && before.at + before.length === n.at && before.attack?.group
        && before.attack !== n.attack && before.attack.group === n.attack?.group && FLAGGED.includes(before.type) && FLAGGED.includes(n.type)
        && !(runs.at(-1)?.includes(before) && runs.at(-1)?.includes(n))) {
        say(`bar ${n.bar}: notes at ${before.at} and ${n.at} of one group are not beamed`);
      }
    });
    for (const run of runs) checkRun(run, say);
  }
}

function checkRun(run, say) {
  if (run.length < 2 || run.at(-1).beam !== 'end') return say(`bar ${run[0].bar}: a beam of ${run.length} notes`);
  if (how !== 'over' && run.some((n) => n.bar !== run[0].bar)) return say(`bar ${run[0].bar}: a beam over the barline`);
  if (beams === 'groups') {
    const attacks = [...new Set(run.map((n) => n.attack))];
    const groups = attacks.map((a) => a?.group);
    const single = new Set(groups).size === groups.length; // each group has one attack
    if (new Set(groups).size > 1 && !single) say(`bar ${run[0].bar}: a beam joins groups ${groups.join(', ')}`);
    return undefined;
  }
  if (view !== 'common') return undefined;
  const bar = expected.bars.find((b) => String(b.number) === run[0].bar);
  if (!bar.spans) return undefined;
  const span = (t) => bar.spans.findIndex((end) => t - bar.start < end);
  if (span(run[0].at) !== span(run.at(-1).at)) say(`bar ${run[0].bar}: a beam over the middle or a beat, at ${run[0].at}`);
  return undefined;
}
