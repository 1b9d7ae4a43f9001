// The view for the wall: the line that sounds, the place and each layer's count, large.
let hung = null; // the line that stands there, and where it belongs

function unhang() {
  if (!hung) return;
  hung.home.replaceWith(hung.box);
  hung = null;
}
// hang shows the line of a section that holds a moment.
function hang(part, t) {
  const lines = part.figures[bothShown(part) ? 5 : 2], line = lines[Math.max(0, last(lines, t, (x) => x.from * fine))];
  const box = line.svg.parentElement;
  if (hung && hung.box === box) return;
  unhang();
  hung = { box, home: document.createElement("span") };
  box.replaceWith(hung.home);
  $("wallfigure").append(box);
}
// countOf is which pulse of its group a layer has reached, and of how many: [2, 3].
function countOf(layer, c, t) {
  let at = layer.cycles[c][0];
  for (const length of layer.groups[layer.cycles[c][4]]) {
    if (t < at + length) return [Math.floor((t - at) / layer.unit) + 1, Math.round(length / layer.unit)];
    at += length;
  }
  return null;
}
function showWall(t, states) {
  const pass = passes[passAt(t)], s = data.sections[pass.section];
  hang(parts[pass.section], t - pass.start);
  $("wallwhere").textContent = $("where").textContent;
  const list = $("wallcounts"), layers = s.layers.filter((layer) => !layer.second || bothShown(parts[pass.section]));
  list.style.setProperty("--layers", Math.max(4, layers.length));
  while (list.children.length > layers.length) list.lastChild.remove();
  layers.forEach((layer, i) => {
    const li = list.children[i] || list.appendChild(document.createElement("li")), { cycle, struck, pulse } = states[i];
    const count = cycle >= 0 && countOf(layer, cycle, t - pass.start);
    const which = bothShown(parts[pass.section]) && layer.version ? ` ${layer.version}` : "";
    const text = `${layer.letter}${which} ${count ? `${count[0]} of ${count[1]}` : "–"}`;
    if (li.textContent !== text) li.textContent = text;
    li.classList.toggle("struck", struck !== null && struck === pulse);
  });
}
function toggleWall() {
  const on = !document.body.classList.contains("wall");
  document.body.classList.toggle("wall", on);
  $("wallview").hidden = !on;
  $("wall").setAttribute("aria-pressed", on);
  if (!on) unhang();
  show(now());
  say(on ? "view for the wall; Escape leaves it" : "the whole page");
}
