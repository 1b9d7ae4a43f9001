// Where the sounding place stands in every figure.
const number = (e, name) => +e.dataset[name];
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const parts = data.sections.map((s, i) => {
  const root = $("section" + i);
  const onsets = [...new Set(s.layers.filter((l) => !l.second).flatMap((l) => l.events.map((e) => e[0])))].sort((a, b) => a - b);
  return {
    root, onsets,
    lit: new Set(), current: [],
    figures: [":not(.both) > .wide svg.figure", ".wide svg.composite", ":not(.both) > .narrow svg.figure", ".narrow svg.composite", ".both > .wide svg.figure", ".both > .narrow svg.figure"].map((which) =>
      [...root.querySelectorAll(which)].map((svg) => ({
        svg, from: number(svg, "from"), to: number(svg, "to"), left: number(svg, "left"), width: number(svg, "width"), time: number(svg, "time"),
        now: new Map([...svg.querySelectorAll(".now")].map((e) => [number(e, "row"), e])),
      }))),
    clocks: [...root.querySelectorAll(".clocks > li")].map((li) => {
      const faces = [...li.querySelectorAll("svg.clock")].map((svg) => ({
        box: svg.parentElement.classList.contains("face") ? svg.parentElement : svg, turn: svg.querySelector(".turn"),
        dots: new Map([...svg.querySelectorAll("[data-at]")].map((c) => [number(c, "at"), c])),
      }));
      return { faces, face: 0, lit: [] };
    }),
    table: new Map([...root.querySelectorAll("tr[data-index]")].map((tr) => [tr.dataset.row + " " + tr.dataset.index, tr])),
  };
});
const fine = data.fine; // ticks of the sound in one of the drawings

// stateOf says what a layer does at section time t: its cycle, the attack that
// sounds and the pulse that is reached; early is before its first cycle.
function stateOf(layer, t) {
  const c = last(layer.cycles, t, (x) => x[0]);
  const e = last(layer.events, t, (x) => x[0]);
  const state = { cycle: -1, struck: null, pulse: null, early: c < 0 };
  if (c >= 0 && t < layer.cycles[c][0] + layer.cycles[c][1]) state.cycle = c;
  if (e >= 0 && t < layer.events[e][0] + layer.events[e][1]) {
    state.struck = layer.events[e][0];
    const start = c >= 0 ? layer.cycles[c][0] : 0;
    state.pulse = Math.max(state.struck, start + Math.floor((t - start) / layer.unit) * layer.unit);
  }
  return state;
}
function showSection(part, s, t) {
  const states = s.layers.map((l) => stateOf(l, t));
  const places = states.map((x, row) => [row, x.pulse]).filter((x) => x[1] !== null);
  if (places.some(([row]) => !s.layers[row].second)) places.push([-1, part.onsets[last(part.onsets, t, (x) => x)]]);
  light(part, places);
  showNotes(part, s, t, states);
  part.clocks.forEach((clock, row) => showClock(clock, s.layers[row], states[row]));
  mark(part, states.map((x, row) => part.table.get(row + " " + x.cycle)).filter(Boolean));
  return states;
}
// mark makes these rows of the drift table the current ones, and brings the one
// that began last into view inside its own box.
function mark(part, rows) {
  if (rows.length === part.current.length && rows.every((tr, i) => tr === part.current[i])) return;
  for (const tr of part.current) { tr.classList.remove("current"); tr.removeAttribute("aria-current"); }
  for (const tr of rows) { tr.classList.add("current"); tr.setAttribute("aria-current", "true"); }
  part.current = rows;
  if (!rows.length) return;
  const newest = rows.reduce((a, b) => (b.rowIndex > a.rowIndex ? b : a)), box = newest.closest(".scroll");
  const own = newest.getBoundingClientRect(), inside = box.getBoundingClientRect();
  const over = own.bottom - inside.bottom, under = own.top - inside.top - box.querySelector("thead").offsetHeight;
  if (over > 0) box.scrollTop += over; else if (under < 0) box.scrollTop += under;
}
// light fills the stems at the places, [row, time], and empties all others.
function light(part, places) {
  const lit = new Set();
  for (const lines of part.figures) {
    for (const [row, at] of places) {
      const line = lines[last(lines, at, (x) => x.from * fine)], mark = line && line.now.get(row);
      if (!mark || at >= line.to * fine) continue;
      mark.setAttribute("x", line.left + (line.width * (at - line.from * fine)) / (line.time * fine) - mark.getAttribute("width") / 2);
      mark.classList.add("on");
      lit.add(mark);
    }
  }
  for (const mark of part.lit) if (!lit.has(mark)) mark.classList.remove("on");
  part.lit = lit;
}
function showClock(clock, layer, state) {
  for (const dot of clock.lit) dot.classList.remove("on");
  clock.lit = [];
  if (!clock.faces.length || (state.cycle < 0 && !state.early)) return;
  const [start, , face, number] = layer.cycles[state.early ? 0 : state.cycle];
  if (face !== clock.face) {
    clock.faces[clock.face].box.toggleAttribute("hidden", true);
    clock.faces[face].box.toggleAttribute("hidden", false);
    clock.face = face;
  }
  clock.faces[face].turn.textContent = "#" + number;
  if (state.struck === null) return;
  for (const at of [state.struck, state.pulse]) {
    const dot = clock.faces[face].dots.get((at - start) / fine);
    if (dot) { dot.classList.add("on"); clock.lit.push(dot); }
  }
}
function clear(part) {
  light(part, []);
  clearNotes(part);
  for (const clock of part.clocks) { for (const dot of clock.lit) dot.classList.remove("on"); clock.lit = []; }
  mark(part, []);
}
let shown = -1, words = "";
function show(t) {
  const pass = passes[passAt(t)], s = data.sections[pass.section];
  if (shown >= 0 && shown !== pass.section) clear(parts[shown]);
  shown = pass.section;
  const states = showSection(parts[shown], s, t - pass.start);
  const text = waiting() ? "counting in" : wherein(pass, t - pass.start);
  if (text !== words) $("where").textContent = words = text;
  if (document.body.classList.contains("wall")) showWall(t, states);
  tellRate(t);
  return states;
}
function tellRate(t) {
  const text = `${$("tempo").value} %, quarter = ${Math.round(tempoAt(t).quarters * rate() * 10) / 10}`;
  if ($("rate").textContent === text) return;
  $("rate").textContent = text;
  $("tempo").setAttribute("aria-valuetext", text);
}
// wherein says where a moment of a pass is, in the bars that are shown or in those of a reading.
function wherein(pass, t, { bars, first } = data.sections[pass.section]) {
  const s = data.sections[pass.section];
  const i = Math.max(0, last(bars, t, (b) => b[0]));
  const beats = s.meters[bars[i][1]];
  const k = Math.max(0, last(beats, t - bars[i][0], (b) => b));
  const name = data.sections.length > 1 ? `${s.name}, ` : "", again = pass.time > 1 ? "second time, " : "";
  if (pass.start + t >= data.length) return `${name}${again}the end of bar ${first + i}`;
  return `${name}${again}bar ${first + i} beat ${k + 1}`;
}

// The line of the figure that sounds, as far as one is shown.
let line = null;
function sounding() {
  for (const e of parts[shown].lit) if (e.getClientRects().length) return e.closest("svg");
  return null;
}
// bring brings a line into view below the controls: all of it, or its top where
// it is higher than the window.
function bring(svg) {
  const box = svg.getBoundingClientRect(), bar = document.querySelector(".main").getBoundingClientRect();
  if (box.top >= bar.bottom && box.bottom <= innerHeight) return;
  svg.scrollIntoView({ block: box.height > innerHeight - bar.height ? "start" : "center" });
}
// accompany goes along with the playing from line to line, unless the reader has
// gone elsewhere on the page or wants no motion.
function accompany() {
  if (alongNotes()) return;
  const now = sounding();
  if (!now || now === line) return;
  const box = line && line.getBoundingClientRect(), here = !box || (box.bottom > 0 && box.top < innerHeight);
  line = now;
  if (here && !calm.matches) bring(now);
}
