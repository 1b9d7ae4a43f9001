// Musical time, and all sounds in order.
const $ = (id) => document.getElementById(id);
const data = JSON.parse($("score").textContent);

const tempos = data.tempos.map(([at, n, d]) => ({ at, quarters: n / d, perTick: (240 * d) / n / data.grid, sec: 0 }));
for (let i = 1; i < tempos.length; i++) {
  tempos[i].sec = tempos[i - 1].sec + (tempos[i].at - tempos[i - 1].at) * tempos[i - 1].perTick;
}
// last returns the index of the last item whose key is at most x, -1 if none.
const last = (list, x, key) => {
  let low = 0, high = list.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (key(list[middle]) <= x) low = middle + 1; else high = middle;
  }
  return low - 1;
};
const tempoAt = (t) => tempos[Math.max(0, last(tempos, t, (x) => x.at))];
const secondsAt = (t) => { const x = tempoAt(t); return x.sec + (t - x.at) * x.perTick; };
const ticksAt = (s) => { const x = tempos[Math.max(0, last(tempos, s, (y) => y.sec))]; return x.at + (s - x.sec) / x.perTick; };

// clock says when a moment sounds, and what sounds when: as written, or as a recording has it.
const written = { seconds: secondsAt, ticks: ticksAt };
let clock = written;

// A pass begins with bar 1 at its start; from is how far before that its pickup begins, which only the first has.
const passes = data.passes.map(([section, start, time]) => ({ section, start, time, from: time > 1 ? 0 : data.sections[section].from || 0 }));
const passAt = (t) => Math.max(0, last(passes, t, (p) => p.start + p.from));
// cycleAt is when a cycle is heard first: one that has begun before its layer enters, then.
const cycleAt = (layer, cycle) => Math.max(layer.from || 0, cycle[0]);

const layers = []; // one for each name, through all sections
const layerOf = (name) => {
  let l = layers.find((x) => x.name === name);
  if (!l) layers.push(l = { name, silent: false, alone: false, side: null, second: false });
  return l;
};
// A section is barred as it is written, or as it is felt: bars and first are those of the reading that is chosen.
const read = (s, reading) => Object.assign(s, { reading, bars: s.readings[reading].bars, first: s.readings[reading].first });
for (const s of data.sections) read(s, 0);
const sounds = [];
// kindAt is how a layer sounds at a moment of its section.
const kindAt = (row, at) => (row.then || []).reduce((kind, next) => (next.at <= at ? next.kind : kind), row.kind);
let clicks = [];
for (const pass of passes) {
  const s = data.sections[pass.section];
  for (const row of s.layers) {
    const layer = layerOf(row.name);
    layer.second = layer.second || row.second;
    const [events, strokes] = pass.time > 1 && row.pickup ? row.pickup : [0, 0]; // left out
    for (const e of row.events.slice(events).concat((row.strokes || []).slice(strokes))) if (e.length > 2) sounds.push({ at: pass.start + e[0], len: e[1], vel: e[2], keys: e.slice(3), layer, kind: kindAt(row, e[0]), pan: row.pan, version: row.version });
  }
}
sounds.sort((a, b) => a.at - b.at);
// setClicks puts the clicks on the beats of all bars. A first bar may have begun before its section.
function setClicks() {
  clicks = [];
  passes.forEach((pass, n) => {
    const s = data.sections[pass.section], ends = n + 1 < passes.length ? passes[n + 1].start : data.length;
    for (const [start, kind] of s.bars) {
      s.meters[kind].forEach((b, i) => {
        const at = pass.start + start + b;
        if (at >= pass.start + pass.from && at < ends) clicks.push({ at, down: i === 0 });
      });
    }
  });
}
setClicks();
