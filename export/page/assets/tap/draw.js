// The taps, drawn as combs along the time; the recording is one thin band above them.
const perSecond = 70, head = 34, rowHigh = 52;
const svg = (name, attributes, text) => {
  const e = document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, v);
  if (text) e.textContent = text;
  return e;
};
const wide = () => Math.max(20, hasRecording() ? ends() : 0, ...parts.flatMap((p) => p.taps.slice(-1).map((t) => t + 5)), now() + 10);
let drawnWidth = 0, rows = [], here = null, done = null;

function drawAll() {
  const box = $("takes"), seconds = Math.ceil(wide()), high = head + rowHigh * parts.length;
  drawnWidth = seconds;
  const root = svg("svg", { width: seconds * perSecond, height: high, viewBox: `0 0 ${seconds * perSecond} ${high}`, role: "img", "aria-label": "taps along the time" });
  const each = seconds > 600 ? 10 : seconds > 120 ? 5 : 1;
  for (let s = 0; s <= seconds; s += each) {
    root.append(svg("path", { class: "tick", d: `M${s * perSecond} ${head - 8}V${high}` }));
    root.append(svg("text", { x: s * perSecond + 3, y: head - 12 }, clockWords(s).replace(/\.00$/, "")));
  }
  const loop = between();
  if (loop) root.append(svg("rect", { class: "bounds", x: loop[0] * perSecond, y: 0, width: (Math.min(loop[1], seconds) - loop[0]) * perSecond, height: high }));
  if (hasRecording()) root.append(svg("path", { class: "band", d: `M0 4H${ends() * perSecond}` }));
  done = svg("path", { class: "done", d: "" });
  here = svg("path", { class: "here", d: "" });
  root.append(done);
  rows = parts.map((_, i) => {
    const g = svg("g", { class: `ink${i % 3}` });
    root.append(g);
    return g;
  });
  root.append(here);
  box.replaceChildren(root);
  parts.forEach((_, i) => drawPart(i));
  show();
}
// joins says after which taps a beam goes on to the next: where the gap is not much longer than usual.
function joins(taps) {
  const gaps = taps.slice(1).map((t, k) => t - taps[k]), sorted = [...gaps].sort((a, b) => a - b);
  const usual = sorted[sorted.length >> 1];
  return gaps.map((g) => g < 1.3 * usual);
}
function drawPart(i) {
  const p = parts[i], g = rows[i], top = head + i * rowHigh + 10, foot = top + 30, x = (s) => (s * perSecond).toFixed(1);
  if (!g) return;
  if (p.taps.length && p.taps[p.taps.length - 1] > drawnWidth) return drawAll();
  g.replaceChildren();
  const on = joins(p.taps);
  g.append(svg("path", { class: "stem", d: p.taps.map((t) => `M${x(t)} ${top}V${foot}`).join("") }));
  g.append(svg("path", { class: "beam", d: on.map((join, k) => (join ? `M${x(p.taps[k])} ${top}H${x(p.taps[k + 1])}` : "")).join("") }));
  if (chosen && chosen[0] === i) g.append(svg("path", { class: "chosen", d: `M${x(p.taps[chosen[1]])} ${top - 4}V${foot + 4}` }));
  const text = $(`taps${i}`), count = $(`count${i}`);
  if (text && document.activeElement !== text) text.value = p.taps.map((t) => t.toFixed(3)).join("\n");
  if (count) count.textContent = p.taps.length ? `${p.taps.length} taps, ${clockWords(p.taps[0])} to ${clockWords(p.taps[p.taps.length - 1])}` : "no taps yet";
}
function show() {
  const s = now(), x = s * perSecond, box = $("takes");
  $("where").textContent = clockWords(s);
  if (!here) return;
  if (s > drawnWidth - 2 && !hasRecording()) drawAll();
  here.setAttribute("d", `M${x} 0V${head + rowHigh * parts.length}`);
  done.setAttribute("d", hasRecording() ? `M0 4H${x}` : "");
  if (running && (x < box.scrollLeft || x > box.scrollLeft + box.clientWidth * 0.85)) box.scrollLeft = x - box.clientWidth * 0.15;
}
// pointed is which part and which place a point of the drawing is, and which tap lies there.
function pointed(e) {
  const box = $("takes").firstChild.getBoundingClientRect(), s = (e.clientX - box.left) / perSecond;
  const i = Math.floor((e.clientY - box.top - head) / rowHigh);
  if (!parts[i]) return { s, i: -1, k: -1 };
  const taps = parts[i].taps;
  let k = -1;
  taps.forEach((t, n) => { if (Math.abs(t - s) * perSecond <= 7 && (k < 0 || Math.abs(t - s) < Math.abs(taps[k] - s))) k = n; });
  return { s, i, k };
}
