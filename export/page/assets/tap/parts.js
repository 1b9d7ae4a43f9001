// The parts and their taps, with what can be undone.
const letters = "fjdkslaghtyru";
let parts = [{ name: "Part 1", key: "f", taps: [] }, { name: "Part 2", key: "j", taps: [] }];
let past = [], chosen = null; // chosen: [part, index of a tap]
let unsaved = false;

const copy = (list) => list.map((p) => ({ ...p, taps: [...p.taps] }));
function change(make) {
  past.push(copy(parts));
  if (past.length > 500) past.shift();
  make();
  unsaved = true;
}
function undo() {
  if (!past.length) return say("there is nothing to undo");
  const many = parts.length;
  parts = past.pop();
  chosen = null;
  if (parts.length !== many) listParts();
  drawAll();
  say("undone");
}
// A pass is one way through the music without turning round. With "New taps replace those they pass" each tap removes
// the older ones of its part since the pass began, or since the part's last tap in it.
let pass = { from: 0, last: new Map() };
const passed = (from) => { pass = { from, last: new Map() }; };
function tap(i, s) {
  if (s < 0) return;
  s = Math.round(s * 1000) / 1000;
  change(() => {
    const p = parts[i], last = pass.last.get(i);
    if ($("over").checked) p.taps = p.taps.filter((t) => (last === undefined ? t < pass.from || t > s : t <= last || t > s));
    if (!p.taps.includes(s)) p.taps.push(s);
    p.taps.sort((a, b) => a - b);
    pass.last.set(i, s);
  });
  chosen = null;
  drawPart(i);
  say(`${parts[i].name}: ${parts[i].taps.length} taps`);
}
function move(by) {
  const [i, k] = chosen, p = parts[i], s = Math.max(0, Math.round((p.taps[k] + by) * 1000) / 1000);
  moveTo(s);
  say(`${p.name}: ${clockWords(s)}`);
}
function moveTo(s) {
  const [i, k] = chosen, p = parts[i];
  if (p.taps.includes(s)) return;
  change(() => {
    p.taps.splice(k, 1, s);
    p.taps.sort((a, b) => a - b);
  });
  chosen = [i, p.taps.indexOf(s)];
  drawPart(i);
}
function remove() {
  if (!chosen) return say("choose a tap first, by a click on it");
  const [i, k] = chosen;
  change(() => parts[i].taps.splice(k, 1));
  chosen = null;
  drawPart(i);
  say("tap removed");
}
// retyped takes the taps of a part from its text, seconds, one a line.
function retyped(i, text) {
  const words = text.split(/\s+/).filter(Boolean), all = words.map(Number);
  const wrong = words.find((w, k) => !(all[k] >= 0) || all[k] > 86400);
  if (wrong !== undefined) return say(`"${wrong}" is no number of seconds; the taps stay as they were`);
  change(() => { parts[i].taps = [...new Set(all)].sort((a, b) => a - b); });
  chosen = null;
  drawPart(i);
}
