// Going to what is pointed at: figure, tables, chart; and looping the bars that are dragged over.

// passOf is the pass in which a moment of a section is shown: the present one, or else its first.
function passOf(section, t) {
  const here = passes[passAt(now())];
  return here.section === section && t >= here.from ? here : passes.find((p) => p.section === section);
}
// pulseAt is the last pulse of any layer that has begun at a moment of a section.
function pulseAt(s, t) {
  let at = s.from || 0;
  for (const l of s.layers) {
    const c = last(l.cycles, t, (x) => x[0]), start = c >= 0 ? l.cycles[c][0] : 0;
    at = Math.max(at, start + Math.floor((t - start) / l.unit) * l.unit);
  }
  return at;
}
// pointed says which moment of which pass a point of a figure is.
function pointed(x, y) {
  const hit = document.elementFromPoint(x, y), svg = hit && hit.closest("svg.figure, svg.composite");
  const root = svg && svg.closest(".part");
  if (!root) return null;
  const box = svg.getBoundingClientRect(), size = svg.viewBox.baseVal, scale = Math.min(box.width / size.width, box.height / size.height);
  const inside = (x - box.left - (box.width - size.width * scale) / 2) / scale;
  const from = number(svg, "from"), to = number(svg, "to");
  const drawn = from + ((inside - number(svg, "left")) / number(svg, "width")) * number(svg, "time");
  const t = Math.min(Math.max(drawn, from), to - 0.001) * fine;
  return { pass: passOf(+root.dataset.section, t), t };
}
// visit goes to a moment and plays on from there if it plays; out of a loop it ends that.
function visit(t) {
  if (looping() && (t < loopFrom() || t >= loopTo())) { $("loop").checked = false; looped(); }
  if (!playing) return jump(t, "");
  hush();
  if (recorded()) recording.element.currentTime = clock.seconds(t);
  begin(t, audio.currentTime + (recorded() ? 0 : 0.06));
}
const goIn = (section, t) => visit(passOf(section, t).start + t);
const goTo = (place) => visit(place.pass.start + pulseAt(data.sections[place.pass.section], place.t));

let held = null; // where the pointer went down
document.addEventListener("pointerdown", (e) => {
  held = e.button === 0 && !e.target.closest("#wallview") ? pointed(e.clientX, e.clientY) : null;
  if (held) held.x = e.clientX;
});
const dragged = (e) => {
  const to = held && Math.abs(e.clientX - held.x) > 8 && pointed(e.clientX, e.clientY);
  return to && to.pass === held.pass ? [barAt(held.pass, held.pass.start + held.t), barAt(to.pass, to.pass.start + to.t)] : null;
};
document.addEventListener("pointermove", (e) => {
  const bars = dragged(e);
  if (!bars) return;
  getSelection().removeAllRanges();
  drawChosen(barSpan(held.pass, Math.min(...bars))[0], barSpan(held.pass, Math.max(...bars))[1]);
});
document.addEventListener("pointerup", (e) => {
  const from = held, bars = dragged(e);
  held = null;
  if (bars) loopBars(from.pass, ...bars);
  else if (from && Math.abs(e.clientX - from.x) <= 8) goTo(from);
});
document.addEventListener("pointercancel", () => { if (held) { held = null; looped(); } });

for (const part of parts) {
  for (const box of part.root.querySelectorAll(".system")) {
    box.addEventListener("keydown", (e) => {
      if (e.key !== "Enter" || e.target !== box) return;
      e.preventDefault();
      const t = number(box.querySelector("svg"), "from") * fine;
      goTo({ pass: passOf(+part.root.dataset.section, t), t });
    });
  }
}

// Each row of a table has a button with its place; the arrow keys go from one to the next.
const shownText = (e) => [...e.childNodes].filter((x) => !x.hidden).map((x) => x.textContent).join("");
function labelPlaces() {
  for (const b of document.querySelectorAll("button.go")) b.setAttribute("aria-label", `${b.label} ${shownText(b)}`);
}
function rowTime(section, tr) {
  if (tr.dataset.at !== undefined) return number(tr, "at") * fine;
  const layer = data.sections[section].layers[number(tr, "row")];
  return cycleAt(layer, layer.cycles[number(tr, "index")]);
}
for (const body of document.querySelectorAll(".part tbody")) {
  const section = +body.closest(".part").dataset.section, buttons = [];
  for (const tr of body.rows) {
    const cell = tr.querySelector(".place"), b = document.createElement("button");
    b.type = "button";
    b.className = "go";
    b.append(...cell.childNodes);
    b.label = `go to ${tr.cells[0].textContent.trim()} ${tr.dataset.at !== undefined && tr.cells.length < 4 ? "" : tr.cells[1].textContent}`;
    b.tabIndex = buttons.length ? -1 : 0;
    cell.append(b);
    buttons.push(b);
    tr.onclick = () => { if (!String(getSelection())) goIn(section, rowTime(section, tr)); };
  }
  body.addEventListener("keydown", (e) => {
    const i = buttons.indexOf(e.target), to = buttons[i + { ArrowDown: 1, ArrowUp: -1 }[e.key]];
    if (i < 0 || !to) return;
    e.preventDefault();
    e.target.tabIndex = -1;
    to.tabIndex = 0;
    to.focus();
  });
}

labelPlaces();

// The chart: a column belongs to the last barline of the count before it, whose number stands in the row above.
function barInChart(text, offset) {
  const before = text.slice(0, offset), lines = text.split("\n"), line = before.split("\n").length - 1;
  const column = before.length - before.lastIndexOf("\n") - 1;
  const near = (what) => {
    for (let i = line; i >= 0 && (lines[i] !== "" || i === line); i--) if (lines[i].startsWith(what)) return lines[i];
    for (let i = line; i < lines.length && lines[i] !== ""; i++) if (lines[i].startsWith(what)) return lines[i];
    return null;
  };
  const bars = near("bar"), count = near("count");
  if (!bars || !count) return null;
  for (let at = Math.min(column, count.length - 1); at >= 0; at--) {
    const found = count[at] === "|" && /^\(?(-?\d+)/.exec(bars.slice(at + 1));
    if (found) return +found[1];
  }
  return null;
}
for (const pre of document.querySelectorAll(".part .chart pre")) {
  const section = +pre.closest(".part").dataset.section;
  pre.onclick = (e) => {
    if (String(getSelection())) return;
    const at = document.caretPositionFromPoint ? document.caretPositionFromPoint(e.clientX, e.clientY) : document.caretRangeFromPoint(e.clientX, e.clientY);
    const s = data.sections[section];
    const bar = at && barInChart(pre.textContent, at.offset === undefined ? at.startOffset : at.offset);
    if (bar !== null && bar >= s.first && bar < s.first + s.bars.length) goIn(section, Math.max(s.from || 0, s.bars[bar - s.first][0]));
  };
}
// goToBar goes to the bar whose number was typed.
function goToBar() {
  const bar = /^\s*-?\d+\s*$/.test($("bar").value) && barNumbered(+$("bar").value);
  $("bar").setAttribute("aria-invalid", !bar);
  if (bar) visit(barSpan(bar.pass, bar.i)[0]);
  else say(allBars());
}
