// The controls and the list of parts.
function listParts() {
  $("parts").replaceChildren(...parts.map((p, i) => {
    const li = document.createElement("li"), put = (name, attributes, parent = li) => {
      const e = Object.assign(document.createElement(name), attributes);
      parent.append(e);
      return e;
    };
    li.className = `ink${i % 3}`;
    const pad = put("button", { type: "button", className: "pad", id: `pad${i}`, textContent: `tap ${p.name}` });
    pad.addEventListener("pointerdown", (e) => { e.preventDefault(); press(i, e); });
    pad.onclick = (e) => { if (e.detail === 0 && running) press(i, e); }; // by keyboard
    const called = put("label", { textContent: "Name " }), name = put("input", { id: `name${i}`, value: p.name, size: 12, maxLength: 60 }, called);
    name.onchange = () => {
      change(() => { p.name = name.value.trim() || `Part ${i + 1}`; });
      pad.textContent = `tap ${p.name}`;
      remove_.setAttribute("aria-label", `remove ${p.name}`);
    };
    const keyed = put("label", { textContent: "Key " }), key = put("input", { id: `key${i}`, value: p.key, size: 2, maxLength: 1 }, keyed);
    key.onchange = () => {
      const c = key.value.toLowerCase();
      if (!/^[\p{L}\p{N}]$/u.test(c) || parts.some((q) => q !== p && q.key === c)) { key.value = p.key; say("a key is one letter or digit that no other part has"); } else p.key = c;
    };
    const typed = put("label", { textContent: "Taps in seconds " }), text = put("textarea", { id: `taps${i}`, rows: 2 }, typed);
    text.onchange = () => retyped(i, text.value);
    put("output", { id: `count${i}`, className: "small" });
    const remove_ = put("button", { type: "button", textContent: "remove part" });
    remove_.setAttribute("aria-label", `remove ${p.name}`);
    remove_.disabled = parts.length === 1;
    remove_.onclick = () => {
      change(() => { parts = parts.filter((q) => q !== p); });
      chosen = null;
      listParts();
      drawAll();
    };
    return li;
  }));
}
function press(i, e) {
  if (exercise) return exerciseTap(e);
  if (!running) return say("play first, then tap along");
  tap(i, placeOf(e));
}
function another() {
  if (parts.length >= 16) return say("sixteen parts are the most");
  const key = [...letters, ..."0123456789"].find((c) => !parts.some((p) => p.key === c));
  change(() => parts.push({ name: `Part ${parts.length + 1}`, key, taps: [] }));
  listParts();
  drawAll();
}
async function chooseFile() {
  const file = $("file").files[0];
  if (!file) return;
  stop();
  try {
    await openRecording(file);
    if (audio) wire(audio, audio.into);
    loud();
    $("filetold").textContent = `${file.name}, ${clockWords(ends())}`;
    $("clickrow").hidden = true;
  } catch (e) {
    $("filetold").textContent = e.message;
    $("clickrow").hidden = false;
  }
  place = 0;
  drawAll();
}
const toggle = () => (running ? stop() : start());

$("play").onclick = toggle;
$("home").onclick = () => { go(between() ? between()[0] : 0); soundedTo = 0; show(); };
$("undo").onclick = undo;
$("more").onclick = another;
$("file").onchange = chooseFile;
$("speed").oninput = changeSpeed;
for (const id of ["side", "volume"]) $(id).oninput = loud;
for (const id of ["loop", "from", "to"]) $(id).onchange = drawAll;
$("fromhere").onclick = () => { $("from").value = now().toFixed(2); drawAll(); };
$("tohere").onclick = () => { $("to").value = now().toFixed(2); $("loop").checked = true; drawAll(); };
$("hear").onchange = () => { soundedTo = 0; };
$("calibrate").onclick = calibrate;
$("nodelay").onclick = () => setDelay(0);
$("find").onclick = () => send("/find");
$("save").onclick = () => send("/save");

let held = null;
$("takes").addEventListener("pointerdown", (e) => {
  const at = pointed(e);
  if (at.k >= 0) {
    chosen = [at.i, at.k];
    held = { x: e.clientX, moved: false };
    drawAll();
  } else {
    chosen = null;
    soundedTo = 0;
    go(Math.max(0, at.s));
    drawAll();
  }
});
document.addEventListener("pointermove", (e) => {
  if (!held || !chosen || (!held.moved && Math.abs(e.clientX - held.x) < 4)) return;
  held.moved = true;
  held.s = Math.max(0, Math.round(pointed(e).s * 1000) / 1000);
  here.setAttribute("d", `M${held.s * perSecond} 0V${head + rowHigh * parts.length}`);
});
document.addEventListener("pointerup", () => {
  if (held && held.moved && chosen) moveTo(held.s);
  held = null;
  show();
});
document.addEventListener("keydown", (e) => {
  const own = e.target.closest && e.target.closest("input, select, textarea, summary");
  if (exercise) {
    if (e.key === "Escape") { exercise = null; tellDelay(); } else if (!e.repeat) exerciseTap(e);
    e.preventDefault();
    return;
  }
  if ((e.ctrlKey || e.metaKey) && e.key.toLowerCase() === "z" && !own) { e.preventDefault(); return undo(); }
  if (own && own.type !== "range" && own.type !== "checkbox" || e.ctrlKey || e.metaKey || e.altKey) return;
  const i = parts.findIndex((p) => p.key === e.key.toLowerCase());
  if (i >= 0) {
    e.preventDefault();
    if (!e.repeat) press(i, e);
    return;
  }
  if (own || (e.key === " " && e.target.closest("button"))) return;
  const by = { ArrowLeft: -1, ArrowRight: 1 }[e.key];
  if (by && chosen) move(by * (e.shiftKey ? 0.001 : 0.01));
  else if (by) { soundedTo = 0; go(now() + by); show(); }
  else if (e.key === "Delete" || e.key === "Backspace") remove();
  else if (e.key === " ") toggle();
  else if (e.key === "Home") $("home").onclick();
  else return;
  e.preventDefault();
});
addEventListener("beforeunload", (e) => { if (unsaved) e.preventDefault(); });
listParts();
tellDelay();
drawAll();
