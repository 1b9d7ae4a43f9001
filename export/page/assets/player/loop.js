// What is looped: between two moments that the lists offer, or any bars.
const loopFrom = () => +$("from").value, loopTo = () => +$("to").value;
const looping = () => $("loop").checked;

function option(select, value, text) {
  const o = document.createElement("option");
  o.value = value;
  o.textContent = text;
  select.append(o);
  return o;
}
// limitLoop offers as the loop's end only what comes after its beginning.
function limitLoop() {
  const ends = [...$("to").options];
  for (const o of ends) o.disabled = +o.value <= loopFrom();
  if (loopTo() <= loopFrom()) $("to").value = ends.find((o) => !o.disabled).value;
}
// choose sets a list to a moment; one that it does not offer becomes its only option of that kind.
function choose(id, at, text) {
  const select = $(id);
  for (const o of [...select.options]) if (o.dataset.own) o.remove();
  if (![...select.options].some((o) => +o.value === at)) {
    const own = option(select, at, text);
    own.dataset.own = "yes";
    select.insertBefore(own, [...select.options].find((o) => +o.value > at) || null);
  }
  select.value = at;
}
// Bars of a pass: which one a moment is in, and from when to when one lasts.
const barAt = (pass, t) => Math.max(0, last(data.sections[pass.section].bars, t - pass.start, (b) => b[0]));
function barSpan(pass, i) {
  const bars = data.sections[pass.section].bars, k = passes.indexOf(pass);
  const ends = k + 1 < passes.length ? passes[k + 1].start : data.length;
  return [pass.start + Math.max(pass.from, bars[i][0]), i + 1 < bars.length ? pass.start + bars[i + 1][0] : ends];
}
// barNumbered finds a bar by its printed number: in the pass that is shown, or else in the first that has it.
function barNumbered(number) {
  const here = passes[passAt(now())];
  for (const pass of [here, ...passes]) {
    const s = data.sections[pass.section], i = number - s.first;
    if (i < 0 || i >= s.bars.length) continue;
    const [from, to] = barSpan(pass, i);
    if (from < to) return { pass, i }; // a pickup is in the first pass only
  }
  return null;
}
function allBars() {
  const firsts = data.sections.map((s) => s.first), lasts = data.sections.map((s) => s.first + s.bars.length - 1);
  return `bars go from ${Math.min(...firsts)} to ${Math.max(...lasts)}`;
}
// loopBars loops from one bar of a pass to another.
function loopBars(pass, a, b) {
  const [i, k] = a <= b ? [a, b] : [b, a], first = data.sections[pass.section].first;
  choose("from", barSpan(pass, i)[0], `bar ${first + i}`);
  choose("to", barSpan(pass, k)[1], `the end of bar ${first + k}`);
  $("loop").checked = true;
  limitLoop();
  $("bars").value = i === k ? `${first + i}` : `${first + i}-${first + k}`;
  looped();
  say(i === k ? `bar ${first + i} loops` : `bars ${first + i} to ${first + k} loop`);
}
// loopTyped reads "3-5" or "3" from the field.
function loopTyped() {
  const typed = /^\s*(-?\d+)\s*(?:[-–]\s*(-?\d+)\s*)?$/.exec($("bars").value);
  const a = typed && barNumbered(+typed[1]), b = typed && barNumbered(+(typed[2] || typed[1]));
  const good = a && b && a.pass === b.pass && a.i <= b.i;
  $("bars").setAttribute("aria-invalid", !good);
  if (good) loopBars(a.pass, a.i, b.i);
  else say(`${allBars()}; write one, or two as in 3-5`);
}
// looped shows what is looped and plays it.
function looped() {
  drawChosen(looping() ? loopFrom() : 0, looping() ? loopTo() : 0);
  again();
}
// drawChosen draws a band below a stretch in every line of the figure.
function drawChosen(from, to) {
  for (const e of document.querySelectorAll(".chosen")) e.remove();
  if (to <= from) return;
  parts.forEach((part, section) => {
    for (const pass of passes.filter((p) => p.section === section)) {
      for (const line of part.figures.flat()) {
        const a = Math.max(line.from * fine, from - pass.start), b = Math.min(line.to * fine, to - pass.start);
        if (b <= a) continue;
        const x = (t) => line.left + (line.width * (t / fine - line.from)) / line.time;
        const box = document.createElementNS("http://www.w3.org/2000/svg", "rect");
        for (const [name, value] of [["class", "chosen"], ["x", x(a)], ["y", line.svg.viewBox.baseVal.height - 5], ["width", x(b) - x(a)], ["height", 5]]) box.setAttribute(name, value);
        line.svg.prepend(box);
      }
    }
  });
}
