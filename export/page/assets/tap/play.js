// What is heard beside the recording: the click, and the taps.
let soundedTo = 0;
function blip(hz, at, pan, level) {
  const o = audio.createOscillator(), g = audio.createGain(), p = audio.createStereoPanner();
  o.type = "triangle";
  o.frequency.value = hz;
  p.pan.value = pan;
  g.gain.setValueAtTime(level, at);
  g.gain.exponentialRampToValueAtTime(0.0001, at + 0.06);
  o.connect(g).connect(p).connect(audio.into);
  o.start(at);
  o.stop(at + 0.08);
}
const beat = () => { const n = Number($("bpm").value); return n >= 20 && n <= 400 ? 60 / n : null; };
// soundAhead hands to the sound card what comes in the next moments.
function soundAhead() {
  if (!running) return;
  const s = now(), limit = s + 0.15 * speed(), from = Math.max(soundedTo, s);
  const at = (t) => audio.currentTime + Math.max(0, (t - s) / speed());
  if (!hasRecording() && beat()) {
    for (let n = Math.ceil(from / beat() - 1e-9); n * beat() < limit; n++) blip(1320, at(n * beat()), 0, 0.4);
  }
  if ($("hear").checked) {
    parts.forEach((p, i) => {
      for (const t of p.taps) if (t >= from && t < limit) blip(620 + 170 * i, at(t), i % 2 ? 0.7 : -0.7, 0.6);
    });
  }
  soundedTo = limit;
}
function tick() {
  if (!running) return;
  const s = now(), loop = between();
  if (loop && s >= loop[1]) {
    soundedTo = 0;
    go(loop[0]);
  } else if (s >= ends() || (hasRecording() && recording.element.ended)) stop();
  soundAhead();
  show();
}
setInterval(tick, 25);
