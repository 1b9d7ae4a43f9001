// Reads a MusicXML file with the library musicxml-io and tells what sounds: for
// each part its bars and its written notes, in ticks of a grid.
import { readFileSync } from 'node:fs';
import { strFromU8, unzipSync } from 'fflate';
import { parse } from 'musicxml-io';

const SEMITONES = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

// text returns the document of a .musicxml or .mxl file.
function text(path) {
  const bytes = readFileSync(path);
  if (!path.endsWith('.mxl')) return bytes.toString('utf8');
  const entries = unzipSync(bytes);
  if (Object.keys(entries)[0] !== 'mimetype') throw new Error('mimetype is not the first entry');
  const root = /full-path="([^"]+)"/.exec(strFromU8(entries['META-INF/container.xml']))[1];
  return strFromU8(entries[root]);
}

// read returns { title, parts: [{ name, bars, notes }] }. A note has at, length,
// keys (sounding), voice, on (the name of its instrument, where it says one), bar,
// type, tieIn, tieOut, ratio, tuplet signs, beam at level 1 and accent; rests are left out. Notes in tablature stand in stopped, each
// with the key that its string sounds at its fret; null where there is none.
export function read(path, grid) {
  const score = parse(text(path));
  const info = new Map(score.partList.filter((p) => p.type === 'score-part').map((p) => [p.id, p]));
  const parts = score.parts.map((p) => readPart(p, info.get(p.id), grid));
  return { title: score.metadata.movementTitle, parts };
}

function readPart(part, info, grid) {
  const drumKeys = new Map((info.midiInstruments ?? []).map((m) => [m.id, m.unpitched - 1]));
  const names = new Map((info.scoreInstruments ?? []).map((i) => [i.id, i.name]));
  const bars = [], notes = [];
  let stopped = null, tabStaff = 0, strings = [];
  let divisions = 0, shift = 0, signature = '', start = 0, length = 0;
  for (const m of part.measures) {
    for (const a of [m.attributes, ...m.entries.filter((e) => e.type === 'attributes').map((e) => e.attributes ?? e)]) {
      if (!a) continue;
      if (a.divisions) divisions = a.divisions;
      if (a.transpose) shift = a.transpose.chromatic + 12 * (a.transpose.octaveChange ?? 0);
      for (const d of a.staffDetails ?? []) {
        if (!d.staffTuning?.length) continue;
        stopped ??= [];
        tabStaff = d.number;
        strings = d.staffTuning.map((t) => 12 * (t.tuningOctave + 1) + SEMITONES[t.tuningStep] + (t.tuningAlter ?? 0)).reverse();
      }
      if (a.time) signature = signatureOf(a.time);
    }
    const ticks = (d) => {
      const t = (d * grid) / (4 * divisions);
      if (!Number.isInteger(t)) throw new Error(`bar ${m.number}: a time of ${d}/${divisions} is off the grid`);
      return t;
    };
    let now = 0, end = 0, onset = 0, last = null;
    for (const e of m.entries) {
      if (e.type === 'backup') now -= ticks(e.duration);
      if (e.type === 'forward') now += ticks(e.duration);
      if (e.type !== 'note') continue;
      if (e.grace) continue; // no attack
      if (e.cue) throw new Error(`bar ${m.number}: a cue note`);
      if (!e.chord) {
        onset = now;
        now += ticks(e.duration);
        end = Math.max(end, now);
        last = e.rest || e.staff === tabStaff ? null : note(e, m.number, start + onset, ticks(e.duration));
        if (last) notes.push(Object.assign(last, { on: names.get(e.instrument) ?? '' }));
      }
      if (e.staff === tabStaff && tabStaff > 0) {
        if (!e.rest) stopped.push({ bar: m.number, at: start + onset, length: ticks(e.duration), key: keyOf(e, 0, drumKeys), by: byString(e, strings), shown: e.printObject !== false });
        continue;
      }
      if (!e.rest) last.keys.push(keyOf(e, shift, drumKeys));
    }
    length = end;
    bars.push({ number: m.number, start, length, signature, double: (m.barlines ?? []).map((b) => b.barStyle).join() });
    start += length;
  }
  return { name: info.name, bars, notes, stopped };
}

// byString is what a string sounds at a fret; strings has the first as its first.
function byString(e, strings) {
  const technical = (kind) => (e.notations ?? []).find((n) => n.technical === kind)?.[kind];
  return strings[technical('string') - 1] + technical('fret');
}

function signatureOf(time) {
  const beats = time.beatsStrList ?? [time.beats], types = time.beatTypeList ?? [time.beatType];
  return beats.map((b, i) => `${b}/${types[i]}`).join('+');
}

function keyOf(e, shift, drumKeys) {
  if (e.unpitched) return drumKeys.get(e.instrument);
  return 12 * (e.pitch.octave + 1) + SEMITONES[e.pitch.step] + (e.pitch.alter ?? 0) + shift;
}

function note(e, bar, at, length) {
  const ties = (e.ties ?? [e.tie]).filter(Boolean).map((t) => t.type);
  const signs = e.notations ?? [];
  const tuplets = signs.filter((n) => n.type === 'tuplet').map((n) => n.tupletType);
  return {
    bar, at, length, keys: [], voice: e.voice, type: e.noteType, small: e.noteTypeSize === 'cue',
    tieIn: ties.includes('stop'), tieOut: ties.includes('start'),
    ratio: e.timeModification?.actualNotes ?? 1, normal: e.timeModification?.normalNotes ?? 1,
    opens: tuplets.includes('start'), closes: tuplets.includes('stop'),
    beam: (e.beam ?? []).find((b) => b.number === 1)?.type ?? '',
    accent: signs.some((n) => n.articulation === 'accent'),
  };
}
