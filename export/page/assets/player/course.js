// The course of playing: what is handed to the sound card, and when.
// How many seconds are handed to the sound card in advance. Browsers wake a page
// that nobody looks at about once a second.
const ahead = () => (document.hidden ? 1.6 : 0.18);
let playing = false, starting = false, place = 0; // place: ticks, while stopped
let anchors = [], nextSound = 0, nextClick = 0, timer = 0;
const rate = () => $("tempo").value / 100;
const loopFrom = () => +$("from").value, loopTo = () => +$("to").value;
const looping = () => $("loop").checked;
const first = (list, t) => last(list, t - 0.5, (e) => e.at) + 1;

function seek(t) {
  nextSound = first(sounds, t);
  nextClick = first(clicks, t);
}
function now() {
  if (!playing) return place;
  const at = audio.currentTime;
  const a = anchors[Math.max(0, last(anchors, at, (x) => x.at))];
  return Math.min(data.length, ticksAt(a.sec + Math.max(0, at - a.at) * rate()));
}
function begin(t, at) {
  anchors = [{ at, sec: secondsAt(t) }];
  seek(t);
}
function hush() {
  for (const n of running) { try { n.stop(); } catch { /* it has not begun */ } }
  running.clear();
}
function schedule() {
  for (let guard = 0; guard < 64; guard++) {
    const a = anchors[anchors.length - 1];
    const when = (t) => a.at + (secondsAt(t) - a.sec) / rate();
    const stop = looping() ? loopTo() : data.length;
    const limit = audio.currentTime + ahead();
    for (; nextSound < sounds.length && sounds[nextSound].at < stop && when(sounds[nextSound].at) < limit; nextSound++) {
      const e = sounds[nextSound], at = when(e.at);
      sound(e, Math.max(at, audio.currentTime), Math.max(0.03, (secondsAt(e.at + e.len) - secondsAt(e.at)) / rate()));
    }
    for (; nextClick < clicks.length && clicks[nextClick].at < stop && when(clicks[nextClick].at) < limit; nextClick++) {
      if ($("click").checked) clickAt(clicks[nextClick], Math.max(when(clicks[nextClick].at), audio.currentTime));
    }
    if (when(stop) >= limit) return;
    if (!looping()) {
      if (audio.currentTime >= when(stop)) halt(0, "the end");
      return;
    }
    anchors.push({ at: when(stop), sec: secondsAt(loopFrom()) });
    if (anchors.length > 4) anchors.shift();
    seek(loopFrom());
  }
}
async function play() {
  if (starting) return;
  starting = true;
  await startAudio();
  starting = false;
  let t = place >= data.length ? 0 : place;
  if (looping() && (t < loopFrom() || t >= loopTo())) t = loopFrom();
  playing = true;
  begin(t, audio.currentTime + 0.06);
  timer = setInterval(schedule, 30);
  schedule();
  requestAnimationFrame(frame);
  $("play").textContent = "Pause";
  say("playing");
}
function halt(t, words) {
  if (!playing) return;
  place = t === undefined ? now() : t;
  playing = false;
  clearInterval(timer);
  hush();
  $("play").textContent = "Play";
  show(place);
  if (words) say(words);
}
function again() { // from here on with other settings
  if (!playing) return;
  let t = now();
  if (looping() && (t < loopFrom() || t >= loopTo())) t = loopFrom();
  hush();
  begin(t, audio.currentTime + 0.02);
}
function frame() {
  if (!playing) return;
  show(now());
  accompany();
  requestAnimationFrame(frame);
}
document.addEventListener("visibilitychange", () => { if (playing) schedule(); });
