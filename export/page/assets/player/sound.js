// How the layers sound.
let audio = null, master = null, noise = null, click = null;
const sideOf = (l, pan) => (l.side === null ? pan / 90 : l.side);
const heard = (l) => !(recorded() && $("own").value === "off") && !l.silent && (l.alone || !layers.some((x) => x.alone));

// Of a loop in two versions the one that the spec has is heard, or those that are chosen.
const versionsHeard = () => ($("versions") ? $("versions").value : "");
const heardAs = (l, version) => { const chosen = versionsHeard(); return chosen ? chosen === "both" || chosen === version : !l.second; };

function startAudio() {
  if (audio) return audio.state === "suspended" ? audio.resume() : undefined;
  audio = new (window.AudioContext || window.webkitAudioContext)();
  master = audio.createGain();
  const limit = audio.createDynamicsCompressor(); // before the volume, so that nothing comes out louder than that
  limit.connect(master).connect(audio.destination);
  setVolume();
  noise = audio.createBuffer(1, audio.sampleRate, audio.sampleRate);
  const samples = noise.getChannelData(0);
  for (let i = 0, x = 1; i < samples.length; i++) { // the same noise each time
    x = (x * 16807) % 2147483647;
    samples[i] = x / 1073741823.5 - 1;
  }
  for (const l of layers) {
    l.gain = audio.createGain();
    l.gain.connect(limit);
    for (const version of ["cut", "whole"]) (l[version] = audio.createGain()).connect(l.gain);
  }
  click = audio.createGain();
  click.connect(limit);
  mix();
}
function setVolume() {
  if (master) master.gain.setTargetAtTime(($("volume").value / 100) ** 2, audio.currentTime, 0.02);
}
function mix() {
  if (!audio) return;
  for (const l of layers) {
    l.gain.gain.setTargetAtTime(heard(l) ? 1 : 0, audio.currentTime, 0.01);
    for (const version of ["cut", "whole"]) l[version].gain.setTargetAtTime(heardAs(l, version) ? 1 : 0, audio.currentTime, 0.01);
  }
}

const running = new Map(); // what may still have to be cut off, and when it begins
function source(node, at, stop) {
  running.set(node, at);
  node.start(at);
  node.onended = () => running.delete(node);
  node.stop(stop);
}
function envelope(out, at, peak, attack, decay, end, release) {
  const g = audio.createGain();
  g.gain.setValueAtTime(0.0001, at);
  g.gain.exponentialRampToValueAtTime(peak, at + attack);
  g.gain.setTargetAtTime(decay.to * peak + 0.0001, at + attack, decay.time);
  g.gain.setTargetAtTime(0.0001, Math.max(at + attack, end), release);
  g.connect(out);
  return g;
}
function tone(type, hz, out, at, stop) {
  const o = audio.createOscillator();
  o.type = type;
  o.frequency.setValueAtTime(hz, at);
  o.connect(out);
  source(o, at, stop);
  return o;
}
function hiss(filter, hz, out, at, stop) {
  const n = audio.createBufferSource(), f = audio.createBiquadFilter();
  n.buffer = noise;
  n.loop = true;
  f.type = filter;
  f.frequency.value = hz;
  n.connect(f).connect(out);
  source(n, at, stop);
}
const hertz = (key) => 440 * 2 ** ((key - 69) / 12);

const kinds = {
  struck(key, out, at, len, loud) {
    const hz = hertz(key);
    const ring = envelope(out, at, loud, 0.003, { to: 0, time: 0.28 }, at + 1.6, 0.05);
    tone("sine", hz, ring, at, at + 1.9);
    tone("sine", hz * 4, envelope(out, at, loud * 0.22, 0.002, { to: 0, time: 0.05 }, at + 0.3, 0.03), at, at + 0.5);
  },
  plucked(key, out, at, len, loud) {
    const e = envelope(out, at, loud, 0.004, { to: 0.05, time: 0.5 }, at + len, 0.06);
    tone("triangle", hertz(key), e, at, at + len + 0.4);
    tone("sine", hertz(key) * 2, envelope(out, at, loud * 0.3, 0.003, { to: 0, time: 0.12 }, at + len, 0.04), at, at + len + 0.3);
  },
  held(key, out, at, len, loud) {
    const f = audio.createBiquadFilter();
    f.type = "lowpass";
    f.frequency.value = Math.min(9000, hertz(key) * 5);
    const e = envelope(out, at, loud * 0.7, 0.018, { to: 0.75, time: 0.15 }, at + len - 0.03, 0.03);
    f.connect(e);
    tone("sawtooth", hertz(key), f, at, at + len + 0.3);
    tone("triangle", hertz(key), f, at, at + len + 0.3);
  },
  drum(key, out, at, len, loud) {
    const skins = { 35: 55, 36: 60, 41: 90, 43: 105, 45: 125, 47: 150, 48: 175, 50: 200, 60: 330, 61: 240, 62: 300, 63: 260, 64: 180, 65: 380, 66: 280 };
    const woods = { 37: 1700, 75: 2500, 76: 1250, 77: 900, 56: 560, 67: 900, 68: 680, 31: 1900, 80: 3200, 81: 3200, 78: 700, 79: 520, 53: 1500, 33: 1000, 34: 1500 };
    const hisses = { 38: [1800, 0.09], 40: [2200, 0.08], 39: [1300, 0.06], 42: [8000, 0.025], 44: [7000, 0.03], 46: [8000, 0.2], 49: [5000, 0.5], 57: [5500, 0.5], 51: [6500, 0.3], 59: [6500, 0.3], 55: [7000, 0.25], 52: [4000, 0.4], 54: [7500, 0.06], 69: [6000, 0.04], 70: [6500, 0.03], 82: [7000, 0.05] };
    if (woods[key]) {
      const e = envelope(out, at, loud, 0.001, { to: 0, time: key === 81 ? 0.4 : 0.035 }, at + 0.8, 0.02);
      tone("sine", woods[key], e, at, at + 1);
      tone("sine", woods[key] * 1.52, e, at, at + 1);
    } else if (hisses[key]) {
      const [hz, ring] = hisses[key];
      hiss(hz > 4000 ? "highpass" : "bandpass", hz, envelope(out, at, loud, 0.001, { to: 0, time: ring }, at + 4 * ring, ring / 2), at, at + 7 * ring);
    } else {
      const hz = skins[key] || 160 + 4 * (key % 24);
      const o = tone("sine", hz * 1.8, envelope(out, at, loud * 1.3, 0.002, { to: 0, time: 0.11 }, at + 0.6, 0.05), at, at + 0.9);
      o.frequency.setTargetAtTime(hz, at, 0.02);
      hiss("bandpass", 1200, envelope(out, at, loud * 0.25, 0.001, { to: 0, time: 0.012 }, at + 0.08, 0.02), at, at + 0.2);
    }
  },
};
function sound(e, at, len) {
  const place = audio.createStereoPanner ? audio.createStereoPanner() : audio.createGain();
  if (place.pan) place.pan.value = Math.max(-1, Math.min(1, sideOf(e.layer, e.version && versionsHeard() === "both" ? { cut: -90, whole: 90 }[e.version] : e.pan)));
  place.connect(e.version ? e.layer[e.version] : e.layer.gain);
  const loud = 0.5 * (e.vel / 127) ** 1.6;
  for (const key of e.keys) kinds[e.kind](key, place, at, len, Math.max(0.001, loud / Math.sqrt(e.keys.length)));
}
function clickAt(e, at) {
  tone("square", e.down ? 1760 : 1320, envelope(click, at, e.down ? 0.22 : 0.13, 0.001, { to: 0, time: 0.012 }, at + 0.05, 0.01), at, at + 0.12);
}
