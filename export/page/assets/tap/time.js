// The clock of the take: the recording's, or that of a click. All places are seconds of it.
const $ = (id) => document.getElementById(id);
const say = (text) => { $("said").textContent = text; };
let audio = null, master = null;
let running = false, place = 0, began = null; // place: while stopped
const hasRecording = () => recording.file !== null;
const speed = () => $("speed").value / 100;
const ends = () => (hasRecording() ? recording.element.duration : Infinity);

async function startAudio() {
  if (!audio) {
    audio = new (window.AudioContext || window.webkitAudioContext)({ latencyHint: "interactive" });
    master = audio.createGain();
    const limit = audio.createDynamicsCompressor();
    limit.connect(master).connect(audio.destination);
    audio.into = limit;
  }
  if (audio.state === "suspended") await audio.resume();
  if (hasRecording()) wire(audio, audio.into);
  loud();
}
function loud() {
  if (!audio) return;
  master.gain.value = ($("volume").value / 100) ** 2;
  hearSides($("side").value, 1);
}
function now() {
  if (!running) return place;
  if (hasRecording()) return recording.element.currentTime;
  return began.s + (audio.currentTime - began.at) * began.speed;
}
// placeOf is when a press was meant: the moment of the press, less the delay between ear and key.
let delay = 0; // seconds
const placeOf = (e) => now() - ((performance.now() - e.timeStamp) / 1000 + delay) * speed();

async function go(s) {
  place = Math.max(0, Math.min(s, ends()));
  if (hasRecording()) recording.element.currentTime = place;
  if (running) began = { at: audio.currentTime, s: place, speed: speed() };
  passed(place);
}
async function start() {
  try {
    await startAudio();
    if (hasRecording()) {
      recording.element.playbackRate = speed();
      recording.element.currentTime = place;
      await recording.element.play();
    }
  } catch (e) {
    return say(`nothing can be played: ${e.message}`);
  }
  running = true;
  began = { at: audio.currentTime, s: place, speed: speed() };
  passed(place);
  $("play").textContent = "Pause";
}
function stop() {
  if (!running) return;
  place = now();
  running = false;
  recording.element.pause();
  $("play").textContent = "Play";
  show();
}
function changeSpeed() {
  if (running && !hasRecording()) began = { at: audio.currentTime, s: now(), speed: speed() };
  recording.element.playbackRate = speed();
  $("rate").textContent = `${$("speed").value} %`;
}
// between is the loop, if one is set: [from, to].
function between() {
  const from = secondsIn($("from").value, 0), to = secondsIn($("to").value, ends());
  return $("loop").checked && from !== null && to !== null && to > from ? [from, to] : null;
}
// secondsIn reads "83.2" or "1:23.2".
function secondsIn(text, usual) {
  if (text.trim() === "") return usual;
  const m = /^\s*(?:(\d+):)?(\d+(?:\.\d+)?)\s*$/.exec(text);
  return m ? (m[1] || 0) * 60 + +m[2] : null;
}
