// A page that is served reloads itself when a spec is saved, and goes on as it was.
const settings = ["tempo", "volume", "from", "to", "loop", "click", "countin", "by", "bars", "keys", "felt", "versions"].filter((id) => $(id));
const valueOf = (e) => (e.type === "checkbox" ? e.checked : e.value);

function keep() {
  const kept = { at: secondsAt(now()), scroll: [scrollX, scrollY], more: $("more").open, wall: document.body.classList.contains("wall"), charts: [], layers: {} };
  for (const id of settings) kept[id] = valueOf($(id));
  kept.composite = $("composite").getAttribute("aria-pressed") === "true";
  kept.charts = [...document.querySelectorAll(".chart")].map((e) => e.open);
  for (const l of layers) kept.layers[l.name] = [l.silent, l.alone, l.side];
  sessionStorage.setItem("tieover", JSON.stringify(kept));
}
// restore sets what the page had before, as far as it still exists.
function restore() {
  const text = sessionStorage.getItem("tieover");
  if (!text) return;
  sessionStorage.removeItem("tieover");
  const kept = JSON.parse(text);
  const bars = /^-?\d+(?:--?\d+)?$/.exec(kept.bars || "");
  for (const id of settings) {
    const e = $(id);
    if (e.type === "checkbox") e.checked = kept[id];
    else if (e.tagName !== "SELECT" || [...e.options].some((o) => o.value === kept[id])) e.value = kept[id];
  }
  layers.forEach((l, i) => {
    if (!kept.layers[l.name]) return;
    [l.silent, l.alone, l.side] = kept.layers[l.name];
    $(`silent${i}`).setAttribute("aria-pressed", l.silent);
    $(`alone${i}`).setAttribute("aria-pressed", l.alone);
    $(`side${i}`).value = l.side === null ? "" : l.side;
  });
  if ($("felt") && $("felt").value) chooseFelt();
  if ($("versions") && $("versions").value) chooseVersions();
  $("bars").value = kept.bars;
  if (kept.composite) toggleComposite();
  $("more").open = kept.more;
  document.querySelectorAll(".chart").forEach((e, i) => { e.open = !!kept.charts[i]; });
  place = Math.min(ticksAt(kept.at), data.length);
  if (kept.wall) toggleWall();
  show(place);
  limitLoop();
  if (kept.loop && bars) loopTyped(); else looped();
  requestAnimationFrame(() => requestAnimationFrame(() => scrollTo(...kept.scroll))); // when all has its height
}
history.scrollRestoration = "manual";
const changes = new EventSource("changes");
changes.onmessage = (e) => {
  $("gone").hidden = true;
  if (e.data === document.body.dataset.version) return;
  keep();
  location.reload();
};
changes.onerror = () => {
  $("gone").textContent = "tieover serve has ended: this page stays as it is, and follows the spec no more.";
  $("gone").hidden = false;
};
restore();
