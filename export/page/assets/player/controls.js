// Stepping in silence, and the controls.
function say(text) { $("said").textContent = text; }
// jump goes to a place in silence and tells it.
function jump(t, text) {
  halt(undefined, "");
  place = t;
  const states = show(place);
  line = sounding();
  if (line) bring(line);
  const pass = passes[passAt(place)];
  say([text, wherein(pass, place - pass.start), ...begun(pass, states)].filter(Boolean).join("; "));
}
// begun tells the cycles that begin at the place: up to four, of the chosen layer first; of more only how many.
function begun(pass, states) {
  const told = [];
  data.sections[pass.section].layers.forEach((l, i) => {
    const c = states[i].cycle;
    if (c < 0 || (l.second && !bothShown(parts[pass.section])) || cycleAt(l, l.cycles[c]) !== place - pass.start) return;
    const words = `${l.name} cycle ${l.cycles[c][3]}, ${l.drifts[data.sections[pass.section].reading][c]}`;
    if (l.name === $("by").value) told.unshift(words); else told.push(words);
  });
  return told.length <= 4 ? told : [...told.slice(0, 3), `${told.length - 3} more cycles begin`];
}
function starts() { // the chosen layer's cycles, through the whole piece
  const all = [];
  for (const pass of passes) {
    for (const l of data.sections[pass.section].layers) {
      if (l.name === $("by").value) for (const c of l.cycles) all.push({ at: pass.start + Math.max(pass.from, cycleAt(l, c)), label: "" });
    }
  }
  return all;
}
// meetings are the starts of sections, the realignments and the end; what falls together is one.
function meetings() {
  const all = [];
  const add = (at, label) => {
    const before = all[all.length - 1];
    if (before && before.at === at) before.label += `, ${label}`; else all.push({ at, label });
  };
  for (const pass of passes) {
    if (pass.from < 0) add(pass.start + pass.from, "the pickup");
    add(pass.start, data.sections[pass.section].name);
    for (const m of data.sections[pass.section].marks) add(pass.start + m.at, m.label);
  }
  add(data.length, "the end");
  return all;
}
function step(places, way) {
  const t = now();
  const next = way > 0 ? places.find((x) => x.at > t + 0.001) : places.filter((x) => x.at < t - 0.001).pop();
  if (next) jump(next.at, next.label);
}
const stepCycle = (way) => step(starts(), way);
const stepMeeting = (way) => step(meetings(), way);

function controls() {
  const seen = new Set();
  for (const m of meetings()) {
    const text = seen.has(m.label) ? `${m.label} again` : m.label;
    seen.add(m.label);
    if (m.at < data.length) option($("from"), m.at, text);
    option($("to"), m.at, text);
  }
  $("to").value = data.length;
  limitLoop();
  for (const l of layers) option($("by"), l.name, l.name).hidden = l.second;
  layers.forEach((l, i) => {
    const row = document.createElement("li"), name = document.createElement("bdi");
    name.textContent = l.name;
    row.hidden = l.second;
    row.dataset.second = l.second ? "yes" : "";
    row.append(name);
    for (const what of ["alone", "silent"]) {
      const b = document.createElement("button");
      b.type = "button";
      b.textContent = what;
      b.id = `${what}${i}`;
      b.setAttribute("aria-pressed", "false");
      b.setAttribute("aria-label", `${l.name} ${what}`);
      b.onclick = () => { l[what] = !l[what]; b.setAttribute("aria-pressed", l[what]); mix(); };
      row.append(b);
    }
    const side = document.createElement("select");
    side.id = `side${i}`;
    side.setAttribute("aria-label", `${l.name} side`);
    for (const [value, text] of [["", "side: as given"], ["-1", "left"], ["-0.5", "half left"], ["0", "middle"], ["0.5", "half right"], ["1", "right"]]) option(side, value, text);
    side.onchange = () => { l.side = side.value === "" ? null : +side.value; };
    row.append(side);
    $("mix").append(row);
  });
}
function toggleComposite() {
  const on = $("composite").getAttribute("aria-pressed") !== "true";
  $("composite").setAttribute("aria-pressed", on);
  for (const e of document.querySelectorAll(".together")) e.hidden = !on;
  say(on ? "composite shown" : "composite hidden");
}
const toggle = () => (playing ? halt(undefined, "paused") : play());

controls();
$("play").onclick = toggle;
$("back").onclick = () => stepCycle(-1);
$("on").onclick = () => stepCycle(1);
$("meet").onclick = () => stepMeeting(1);
$("home").onclick = () => jump(0, "start");
$("volume").oninput = setVolume;
$("composite").onclick = toggleComposite;
$("print").onclick = () => window.print();
$("wall").onclick = toggleWall;
$("bar").onchange = goToBar;
$("bars").onchange = loopTyped;
for (const id of ["loop", "from", "to"]) {
  $(id).onchange = () => {
    $("bars").value = "";
    limitLoop();
    looped();
  };
}
$("tempo").oninput = () => { again(); tellRate(now()); };
document.addEventListener("keydown", (e) => {
  if (e.ctrlKey || e.metaKey || e.altKey || !$("keys").checked) return;
  const own = e.target.closest && e.target.closest("input, select, button, summary, .scroll");
  if (own && (e.key === " " || own.matches("input, select, .scroll"))) return;
  const keys = {
    " ": toggle, c: toggleComposite, w: toggleWall, Home: () => jump(0, "start"),
    ArrowRight: () => (e.shiftKey ? stepMeeting(1) : stepCycle(1)),
    ArrowLeft: () => (e.shiftKey ? stepMeeting(-1) : stepCycle(-1)),
    ...($("felt") && { f: toggleFelt }), ...($("versions") && { v: toggleVersions }),
  };
  if (document.body.classList.contains("wall")) keys.Escape = toggleWall;
  const action = keys[e.key.length > 1 ? e.key : e.key.toLowerCase()];
  if (!action) return;
  e.preventDefault();
  action();
});
if (matchMedia("(max-width: 640px)").matches) $("more").open = false;
show(0);
