// The notes: whose are shown, and which sound. They take their layer's color and are drawn heavier.
const whole = (text) => { const [n, d = 1] = text.split("/"); return (n * data.grid) / d; };
const staves = parts.map((part, i) => ({
  start: passes.find((p) => p.section === i).start,
  boxes: new Map([...part.root.querySelectorAll(".notes > [data-who]")].map((e) => [e.dataset.who, e])),
  known: new Map(), lit: new Set(),
}));
let who = $("notes") ? $("notes").value : "";
// notesOf lists the notes of a choice by layer, each in order of time, once it is asked for.
function notesOf(section) {
  const own = staves[section], box = own.boxes.get(who);
  if (!box) return null;
  if (!own.known.has(who)) {
    const lists = new Map();
    for (const e of box.querySelectorAll("path[data-at]")) {
      for (const name of e.dataset.layer.split("\n")) { // a note that several layers strike is each one's
        if (!lists.has(name)) lists.set(name, []);
        lists.get(name).push({ e, at: whole(e.dataset.at) - own.start });
      }
    }
    for (const list of lists.values()) list.sort((a, b) => a.at - b.at);
    own.known.set(who, lists);
  }
  return own.known.get(who);
}
// showNotes lights what each layer sounds at section time t, with all that is tied to it; in the composite what
// was struck last.
function showNotes(part, s, t, states) {
  const section = parts.indexOf(part), lists = notesOf(section), lit = new Map();
  const take = (list, from, to, look) => {
    for (let k = list ? last(list, from - 0.001, (x) => x.at) + 1 : Infinity; list && k < list.length && list[k].at < to; k++) lit.set(list[k].e, look);
  };
  if (lists) {
    s.layers.forEach((layer, row) => {
      if (states[row].struck === null) return;
      const e = layer.events[last(layer.events, t, (x) => x[0])];
      take(lists.get(layer.name), e[0], e[0] + e[1], "ink" + (row % 3));
    });
    const k = last(part.onsets, t, (x) => x);
    if (who === "composite" && k >= 0 && states.some((x) => x.struck !== null)) {
      for (const list of lists.values()) take(list, part.onsets[k], k + 1 < part.onsets.length ? part.onsets[k + 1] : Infinity, "all");
    }
  }
  const before = staves[section].lit;
  for (const e of before) if (!lit.has(e)) e.removeAttribute("class");
  for (const [e, look] of lit) if (!before.has(e)) e.setAttribute("class", "on " + look);
  staves[section].lit = new Set(lit.keys());
}
function clearNotes(part) {
  const own = staves[parts.indexOf(part)];
  for (const e of own.lit) e.removeAttribute("class");
  own.lit.clear();
}
function chooseNotes() {
  parts.forEach(clearNotes);
  who = $("notes").value;
  for (const own of staves) for (const [name, box] of own.boxes) box.hidden = name !== who;
  show(now());
  say(who ? `the notes of ${who} are shown` : "no notes are shown");
}
// alongNotes goes along with the notes while the reader has them in view, and reports whether it is so.
let staffLine = null;
function alongNotes() {
  let svg = null;
  for (const e of staves[shown].lit) if (e.getClientRects().length) { svg = e.closest("svg"); break; }
  if (!svg) return false;
  const box = (svg === staffLine || !staffLine ? svg : staffLine).getBoundingClientRect(), here = box.bottom > 0 && box.top < innerHeight;
  if (svg !== staffLine && here && !calm.matches) bring(svg);
  staffLine = svg;
  return here;
}
// A click goes to the note that is nearest to it.
for (const [section, part] of parts.entries()) {
  const box = part.root.querySelector(".notes");
  if (!box) continue;
  box.addEventListener("click", (e) => {
    const svg = e.target.closest("svg.music");
    if (!svg || String(getSelection())) return;
    let nearest = null, best = Infinity;
    for (const note of svg.querySelectorAll("path[data-at]")) {
      const r = note.getBoundingClientRect(), off = Math.hypot(e.clientX - (r.left + r.right) / 2, e.clientY - (r.top + r.bottom) / 2);
      if (off < best) { best = off; nearest = note; }
    }
    if (nearest) goIn(section, whole(nearest.dataset.at) - staves[section].start);
  });
}
if ($("notes")) $("notes").onchange = chooseNotes;
