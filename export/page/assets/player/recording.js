// Following a recording: marks say when bars begin in it, and the recording's clock then moves everything.
const kept = data.recording || { file: "", marks: [] }; // as the spec has them
let marks = kept.marks.map(([t, s]) => ({ t, s }));
const recorded = () => recording.file !== null && marks.length > 0 && $("follow").checked;

// The recording's clock: between two marks it runs evenly against the written tempo; before the first and after the
// last as between the nearest two. One mark alone takes the written tempo.
function stretch(i) {
  const a = marks[i], b = marks[i + 1];
  return (b.s - a.s) / (secondsAt(b.t) - secondsAt(a.t));
}
function segment(x, key) { return Math.max(0, Math.min(marks.length - 2, last(marks, x, key))); }
const recordedClock = {
  seconds(t) {
    if (marks.length === 1) return marks[0].s + secondsAt(t) - secondsAt(marks[0].t);
    const i = segment(t, (m) => m.t);
    return marks[i].s + (secondsAt(t) - secondsAt(marks[i].t)) * stretch(i);
  },
  ticks(s) {
    const from = (m, by) => ticksAt(secondsAt(m.t) + (s - m.s) / by);
    if (marks.length === 1) return from(marks[0], 1);
    const i = segment(s, (m) => m.s);
    return from(marks[i], stretch(i));
  },
};
const useClock = () => { clock = recorded() ? recordedClock : written; };

// followRecording keeps the sound card's clock beside the recording's.
function followRecording() {
  const a = anchors[anchors.length - 1], at = audio.currentTime, is = recording.element.currentTime;
  if (Math.abs(a.sec + (at - a.at) * a.rate - is) > 0.012) anchors = [{ at, sec: is, rate: rate() }];
}
async function startRecording(t) {
  const e = recording.element;
  wire(audio, master);
  hearRecording();
  e.playbackRate = rate();
  e.currentTime = Math.max(0, Math.min(e.duration, clock.seconds(t)));
  await e.play();
}
function hearRecording() {
  hearSides($("recside").value, $("own").value === "alone" ? 0 : ($("recvolume").value / 100) ** 2);
  mix();
}

// Marking: which bar begins where the recording is.
function addMark(t, s) {
  const kept = marks.filter((m) => m.t !== t);
  const before = kept.filter((m) => m.t < t).pop(), after = kept.find((m) => m.t > t);
  if ((before && before.s >= s) || (after && after.s <= s)) return tellRecording("that would run backwards: a later bar must begin later; remove the mark that is wrong");
  marks = [...kept, { t, s }].sort((a, b) => a.t - b.t);
  marked();
  return true;
}
function marked() {
  useClock();
  showMarks();
  remember();
  if (playing) halt(undefined, "");
}
function markBar() {
  const bar = /^\s*\d+\s*$/.test($("recbar").value) && barNumbered(+$("recbar").value);
  if (!bar) return tellRecording(allBars());
  const s = recording.element.currentTime;
  if (addMark(barSpan(bar.pass, bar.i)[0], s)) tellRecording(`bar ${$("recbar").value} begins at ${clockWords(s)}`);
}
// Four taps, on the first beats from the bar on: offset and tempo of the line that comes nearest to all four.
let taps = [];
function tapBeat() {
  const bar = /^\s*\d+\s*$/.test($("recbar").value) && barNumbered(+$("recbar").value);
  if (!bar) return tellRecording(allBars());
  if (recording.element.paused) return tellRecording("listen to the recording, and tap along");
  taps.push(recording.element.currentTime);
  if (taps.length < 4) return tellRecording(`${taps.length} of 4 beats`);
  const beats = [];
  for (let { pass, i } = bar; beats.length < 4 && i < data.sections[pass.section].bars.length; i++) {
    const [start, kind] = data.sections[pass.section].bars[i];
    for (const b of data.sections[pass.section].meters[kind]) if (start + b >= pass.from) beats.push(pass.start + start + b);
  }
  const x = beats.slice(0, 4).map(secondsAt), n = x.length, mean = (list) => list.reduce((a, b) => a + b, 0) / n;
  const mx = mean(x), my = mean(taps.slice(0, n));
  const slope = x.reduce((sum, v, k) => sum + (v - mx) * (taps[k] - my), 0) / x.reduce((sum, v) => sum + (v - mx) ** 2, 0);
  const at = (v) => my + slope * (v - mx), tapped = taps;
  taps = [];
  if (n < 4 || !(slope > 0)) return tellRecording("these taps are no four beats; tap again");
  const most = Math.max(...tapped.map((s, k) => Math.abs(s - at(x[k]))));
  addMark(beats[0], at(x[0]));
  addMark(beats[3], at(x[3]));
  tellRecording(`four beats, the farthest ${Math.round(most * 1000)} ms off an even line; mark a later bar as well, since four beats tell the tempo only roughly`);
}
function tellRecording(text) {
  $("rectold").textContent = text;
  return false;
}
const barOf = (t) => { const pass = passes[passAt(t)]; return wherein(pass, t - pass.start, data.sections[pass.section].readings[0]); }; // as the spec counts
function showMarks() {
  const list = $("recmarks");
  list.replaceChildren();
  for (const m of marks) {
    const li = document.createElement("li"), text = document.createElement("span");
    text.textContent = `${barOf(m.t)} at ${m.s.toFixed(3)} s `;
    li.append(text);
    for (const [name, change] of [["10 ms earlier", -0.01], ["10 ms later", 0.01], ["remove", 0]]) {
      const b = document.createElement("button");
      b.type = "button";
      b.textContent = name;
      b.setAttribute("aria-label", `${barOf(m.t)}: ${name}`);
      b.onclick = () => {
        if (change) m.s = Math.max(0, m.s + change); else marks = marks.filter((x) => x !== m);
        marked();
      };
      li.append(b);
    }
    list.append(li);
  }
  const pairs = marks.length > 1 ? ` quarter = ${[...Array(marks.length - 1).keys()].map((i) => (tempoAt(marks[i].t).quarters / stretch(i)).toFixed(1)).join(", ")} from mark to mark` : "";
  $("rectempo").textContent = marks.length ? `${marks.length === 1 ? "One mark: the written tempo is taken; mark a later bar too." : `The recording has${pairs}.`}` : "";
  $("recspec").value = specText();
  $("recspec").hidden = !marks.length;
  $("follow").disabled = !marks.length;
}
// specText is what the spec takes so that the marks are there on the next visit.
function specText() {
  const quoted = (s) => `"${s.replace(/["\\]/g, "\\$&")}"`;
  const at = marks.map((m) => `{at: ${barOf(m.t).replace(/^.*?(bar \d+)/, "$1").replace(" beat 1", "")}, sounds: ${m.s.toFixed(3)} s}`);
  const name = recording.file ? recording.file.name : kept.file;
  return `recording:\n  file: ${quoted(name)}\n  marks:\n${at.map((x) => `    - ${x}\n`).join("")}`;
}
// What is remembered on this machine is the alignment alone, by the piece and the file.
const memory = (file) => `tieover recording ${document.title} ${file.name} ${file.size}`;
function remember() {
  if (!recording.file) return;
  try { localStorage.setItem(memory(recording.file), JSON.stringify(marks.map((m) => [m.t, m.s]))); } catch { /* a browser that keeps nothing */ }
}
function recall(file) {
  if (kept.marks.length && file.name === kept.file) return;
  let before = null;
  try { before = JSON.parse(localStorage.getItem(memory(file))); } catch { /* nothing is kept */ }
  if (before) marks = before.filter(([t]) => t <= data.length).map(([t, s]) => ({ t, s }));
}
async function chooseRecording() {
  const file = $("recfile").files[0];
  if (!file) return;
  halt(undefined, "");
  try {
    await openRecording(file);
  } catch (e) {
    $("reccontrols").hidden = true;
    useClock();
    return tellRecording(e.message);
  }
  recall(file);
  $("reccontrols").hidden = false;
  $("recat").max = recording.element.duration;
  $("recbar").value = data.sections[0].first;
  const other = kept.file && kept.file !== file.name ? `; the spec speaks of ${kept.file}` : "";
  tellRecording(`${file.name}, ${clockWords(recording.element.duration)}${other}. ${marks.length ? "It is aligned." : "Listen, and mark where a bar begins; then a later one."}`);
  useClock();
  showMarks();
  show(now());
}
// Listening to the recording alone, to find where its bars begin.
async function listen() {
  const e = recording.element;
  if (playing) halt(undefined, "");
  if (!e.paused) return e.pause();
  try {
    await startAudio();
    wire(audio, master);
    hearRecording();
    e.playbackRate = rate();
    await e.play();
  } catch (why) {
    tellRecording(`nothing can be played: ${why.message}`);
  }
}
function showRecording() {
  const e = recording.element, s = e.currentTime;
  if (document.activeElement !== $("recat")) $("recat").value = s;
  $("recat").setAttribute("aria-valuetext", clockWords(s));
  $("rectime").textContent = `${clockWords(s)}${marks.length ? `, ${barOf(Math.max(0, Math.min(data.length, recordedClock.ticks(s))))}` : ""}`;
  $("listen").textContent = e.paused || playing ? "Listen" : "Stop";
  if (!playing && recorded() && !e.paused) show(Math.max(0, Math.min(data.length - 1, recordedClock.ticks(s))));
}

$("recfile").onchange = chooseRecording;
$("listen").onclick = listen;
$("recmark").onclick = markBar;
$("rectap").onclick = tapBeat;
$("recat").oninput = () => { recording.element.currentTime = +$("recat").value; };
for (const id of ["recside", "recvolume", "own"]) $(id).oninput = hearRecording;
$("follow").onchange = () => { halt(undefined, ""); useClock(); };
for (const what of ["timeupdate", "play", "pause", "seeked", "ended"]) recording.element.addEventListener(what, showRecording);
setInterval(() => { if (!recording.element.paused) showRecording(); }, 50);
showMarks();
