// Other bars: as they are felt; and loops in two versions, cut and whole.

// rebar reads all sections as they are felt, where they can be, or as they are written when the name is "".
function rebar(name) {
  data.sections.forEach((s, i) => read(s, Math.max(0, s.readings.findIndex((r) => r.name === name))));
  for (const root of document.querySelectorAll(".part, .sheet")) {
    const { reading } = data.sections[+root.dataset.section];
    for (const e of root.querySelectorAll("[data-reading]")) e.toggleAttribute("hidden", +e.dataset.reading !== reading);
    for (const e of root.querySelectorAll("[data-said]")) {
      const said = e.dataset.said.split("\n")[reading];
      e.setAttribute("aria-label", e.matches(".system") ? `${said}; Enter goes there` : said);
    }
  }
  labelPlaces();
  setClicks();
}
function chooseFelt() {
  const name = $("felt").value;
  rebar(name);
  if (name) felt = name;
  $("bars").value = "";
  again();
  show(now());
  say(name ? `bars as ${name}` : "bars as written");
}
let felt = $("felt") ? $("felt").options[1].value : ""; // what the key goes to
function toggleFelt() {
  $("felt").value = $("felt").value ? "" : felt;
  chooseFelt();
}

// bothShown reports whether a section's loops are shown in both versions.
const bothShown = (part) => versionsHeard() !== "" && part.figures[4].length > 0;
function chooseVersions() {
  const chosen = $("versions").value;
  if (chosen) heardLast = chosen;
  for (const e of document.querySelectorAll(".versions")) e.hidden = !chosen;
  for (const e of document.querySelectorAll("#mix > [data-second=yes]")) e.hidden = !chosen;
  layers.forEach((l, i) => { if (l.second) $("by").options[i].hidden = !chosen; });
  if (!chosen && layers.some((l) => l.second && l.name === $("by").value)) $("by").value = layers.find((l) => !l.second).name;
  unhang();
  mix();
  again();
  show(now());
  say(chosen ? `loops cut and whole; ${{ cut: "the cut ones sound", whole: "the whole ones sound", both: "the cut ones sound on the left, the whole ones on the right" }[chosen]}` : "loops as written");
}
let heardLast = "both";
function toggleVersions() {
  $("versions").value = $("versions").value ? "" : heardLast;
  chooseVersions();
}
if ($("felt")) $("felt").onchange = chooseFelt;
if ($("versions")) $("versions").onchange = chooseVersions;
