// The delay between ear and key: twelve clicks are tapped along with, and the middle of the last eight differences is
// taken off from then on.
let exercise = null; // { clicks, taps } in the sound card's seconds
const stored = "tieover tap delay";

function tellDelay() {
  $("delay").textContent = delay ? `${Math.round(delay * 1000)} ms are taken off each tap` : "no delay is taken off";
  $("nodelay").hidden = !delay;
}
async function calibrate() {
  stop();
  try { await startAudio(); } catch (e) { return say(`nothing can be played: ${e.message}`); }
  const from = audio.currentTime + 1;
  exercise = { clicks: Array.from({ length: 12 }, (_, k) => from + k * 0.6), taps: [] };
  for (const t of exercise.clicks) blip(1320, t, 0, 0.5);
  $("delay").textContent = "Tap along with the twelve clicks, with any key; Escape ends it.";
  setTimeout(measured, (from - audio.currentTime + 12 * 0.6 + 0.3) * 1000, exercise);
}
function exerciseTap(e) { exercise.taps.push(audio.currentTime - (performance.now() - e.timeStamp) / 1000); }
function measured(which) {
  if (exercise !== which) return;
  exercise = null;
  const late = which.clicks.slice(4).map((c) => which.taps.map((t) => t - c).filter((d) => Math.abs(d) < 0.3).sort((a, b) => Math.abs(a) - Math.abs(b))[0]).filter((d) => d !== undefined);
  if (late.length < 6) {
    $("delay").textContent = `only ${late.length} of the last eight clicks were tapped; nothing is changed`;
    return;
  }
  const middle = (list) => [...list].sort((a, b) => a - b)[list.length >> 1], m = middle(late);
  setDelay(m);
  $("delay").textContent = `Your taps come ${Math.abs(Math.round(m * 1000))} ms ${m < 0 ? "before" : "after"} the click, half of them within ${Math.round(middle(late.map((d) => Math.abs(d - m))) * 1000)} ms of that. This is taken off from now on.`;
}
function setDelay(s) {
  delay = s;
  try { localStorage.setItem(stored, String(s)); } catch { /* a browser that keeps nothing */ }
  tellDelay();
}
try { delay = Number(localStorage.getItem(stored)) || 0; } catch { /* nothing is kept */ }
