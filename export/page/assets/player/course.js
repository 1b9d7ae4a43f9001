// The course of playing: what is handed to the sound card, and when.
// How many seconds are handed to the sound card in advance. Browsers wake a page
// that nobody looks at about once a second.
const ahead = () => (document.hidden ? 1.6 : 0.18);
let playing = false, starting = false, place = 0; // place: ticks, while stopped
let anchors = [], nextSound = 0, nextClick = 0, timer = 0;
const rate = () => $("tempo").value / 100;
// first returns the index of the first item at or after t. What has been struck is not struck again when playing
// goes on from between two ticks, and rounding loses nothing that stands at t.
const first = (list, t) => last(list, t - 0.001, (e) => e.at) + 1;

function seek(t) {
  nextSound = first(sounds, t);
  nextClick = first(clicks, t);
}
function now() {
  if (!playing) return place;
  if (recorded()) return Math.max(0, Math.min(data.length, clock.ticks(recording.element.currentTime)));
  const at = audio.currentTime;
  const a = anchors[Math.max(0, last(anchors, at, (x) => x.at))];
  return Math.min(data.length, clock.ticks(a.sec + Math.max(0, at - a.at) * a.rate));
}
// begin plays on from t at a moment of the sound card's clock.
function begin(t, at) {
  anchors = [{ at, sec: clock.seconds(t), rate: rate() }];
  seek(t);
}
// countIn clicks the beats of so many bars like the one at t, and those of its own before t, and returns how many
// seconds that takes.
function countIn(t, at) {
  const bars = +$("countin").value, pass = passes[passAt(t)];
  if (!bars) return 0;
  const s = data.sections[pass.section], i = barAt(pass, t), start = pass.start + s.bars[i][0];
  const whole = s.lengths[s.bars[i][1]], beats = s.meters[s.bars[i][1]], x = tempoAt(t).perTick / rate(), from = start - bars * whole;
  for (let bar = from; bar < t; bar += whole) {
    beats.forEach((b, k) => { if (bar + b < t) clickAt({ down: k === 0 }, at + (bar + b - from) * x); });
  }
  return (t - from) * x;
}
// hush cuts off what sounds, and takes back what was to begin at a moment or after it.
function hush(from = 0) {
  for (const [node, at] of running) {
    if (at < from) continue;
    node.stop();
    running.delete(node);
  }
}
// waiting reports whether it is being counted in.
const waiting = () => playing && audio.currentTime < anchors[0].at - 0.06;
function schedule() {
  if (recorded()) followRecording();
  for (let guard = 0; guard < 64; guard++) {
    const a = anchors[anchors.length - 1];
    const when = (t) => a.at + (clock.seconds(t) - a.sec) / a.rate;
    const stop = looping() ? loopTo() : data.length;
    const limit = audio.currentTime + ahead();
    for (; nextSound < sounds.length && sounds[nextSound].at < stop && when(sounds[nextSound].at) < limit; nextSound++) {
      const e = sounds[nextSound], at = when(e.at), end = when(Math.min(e.at + e.len, stop));
      if (!e.version || heardAs(e.layer, e.version)) sound(e, Math.max(at, audio.currentTime), Math.max(0.03, end - at));
    }
    for (; nextClick < clicks.length && clicks[nextClick].at < stop && when(clicks[nextClick].at) < limit; nextClick++) {
      if ($("click").checked) clickAt(clicks[nextClick], Math.max(when(clicks[nextClick].at), audio.currentTime));
    }
    if (when(stop) >= limit) return;
    if (recorded()) { // which does not turn round before it has come to the end
      if (audio.currentTime < when(stop)) return;
      if (!looping()) return halt(0, "the end");
      recording.element.currentTime = clock.seconds(loopFrom());
      return begin(loopFrom(), audio.currentTime);
    }
    if (!looping()) {
      if (audio.currentTime >= when(stop)) halt(0, "the end");
      return;
    }
    anchors.push({ at: when(stop), sec: clock.seconds(loopFrom()), rate: a.rate });
    if (anchors.length > 4) anchors.shift();
    seek(loopFrom());
  }
}
async function play() {
  if (starting) return;
  starting = true;
  try { await startAudio(); } finally { starting = false; }
  let t = place >= data.length ? 0 : place;
  if (looping() && (t < loopFrom() || t >= loopTo())) t = loopFrom();
  if (recorded()) {
    try { await startRecording(t); } catch (e) { return tellRecording(`the recording cannot be played: ${e.message}`); }
  }
  playing = true;
  const at = audio.currentTime + (recorded() ? 0 : 0.06);
  begin(t, at + (recorded() ? 0 : countIn(t, at)));
  timer = setInterval(schedule, 30);
  schedule();
  show(t);
  requestAnimationFrame(frame);
  $("play").textContent = "Pause";
  say("playing");
}
// halt stops where it is and cuts off what sounds; at the end of all, with the place to go to, the last sounds ring out.
function halt(t, words) {
  if (!playing) return;
  place = t === undefined ? now() : t;
  playing = false;
  recording.element.pause();
  clearInterval(timer);
  if (t === undefined) hush();
  $("play").textContent = "Play";
  show(place);
  if (words) say(words);
}
// again plays on with another tempo or loop: from here, where what sounds goes on, or from the loop's beginning.
function again() {
  if (!playing) return;
  const t = now(), away = looping() && (t < loopFrom() || t >= loopTo());
  hush(away ? 0 : audio.currentTime);
  if (recorded()) {
    recording.element.playbackRate = rate();
    if (away) recording.element.currentTime = clock.seconds(loopFrom());
  }
  begin(away ? loopFrom() : t, audio.currentTime);
}
function frame() {
  if (!playing) return;
  show(now());
  accompany();
  requestAnimationFrame(frame);
}
document.addEventListener("visibilitychange", () => { if (playing) schedule(); });
