// A sound card, a timer and frames whose time is turned on by hand, so that what the player hands over, and when,
// can be told exactly and on any machine. Put into a page before its own script runs.
{
  const card = window.card = { now: 0, sources: [], tick: null, frame: null };

  class Param {
    constructor(value) { this.value = value; }
    setValueAtTime(value) { this.value = value; return this; }
    exponentialRampToValueAtTime(value) { if (!(value > 0)) throw new Error(`a ramp to ${value}`); return this; }
    setTargetAtTime(value) { this.goal = value; return this; }
  }
  class Part {
    constructor(kind) { this.kind = kind; this.to = []; }
    connect(to) { this.to.push(to); return to; }
  }
  class Source extends Part {
    start(at) { if (!(at >= card.now)) throw new Error(`a start at ${at}, before ${card.now}`); this.at = at; card.sources.push(this); }
    stop(at) { if (at === undefined) this.cut = card.now; else this.until = at; }
  }
  const parametered = (kind, name, value) => { const p = new Part(kind); p[name] = new Param(value); return p; };
  window.AudioContext = class {
    constructor() { card.context = this; this.sampleRate = 100; this.state = 'running'; this.destination = new Part('loudspeaker'); }
    get currentTime() { return card.now; }
    createGain() { return parametered('gain', 'gain', 1); }
    createStereoPanner() { return parametered('side', 'pan', 0); }
    createBiquadFilter() { return parametered('filter', 'frequency', 350); }
    createDynamicsCompressor() { return new Part('limiter'); }
    createBuffer(channels, length) { const samples = new Float32Array(length); return { getChannelData: () => samples }; }
    createBufferSource() { return new Source('noise'); }
    createOscillator() { const o = new Source('tone'); o.frequency = new Param(440); return o; }
    async resume() {}
  };
  window.setInterval = (f) => { card.tick = f; return 1; };
  window.clearInterval = () => { card.tick = null; };
  window.requestAnimationFrame = (f) => { card.frame = f; return 1; };

  // go turns the time on by some seconds, in steps.
  card.go = (seconds, by = 0.03) => {
    const end = card.now + seconds;
    while (card.now < end) {
      card.now = Math.min(end, card.now + by);
      if (card.tick) card.tick();
      const frame = card.frame;
      card.frame = null;
      if (frame) frame();
    }
  };
  // struck lists what sounded: one entry for each attack, however many sources it is made of; clicks have no side.
  card.struck = () => {
    const all = new Map();
    for (const s of card.sources) {
      if (s.cut !== undefined && s.cut <= s.at) continue; // taken back before it began
      const path = [];
      for (let p = s; p; p = p.to[0]) path.push(p);
      const side = path.find((p) => p.kind === 'side');
      const ends = s.cut === undefined ? s.until : Math.min(s.cut, s.until);
      const heard = path.filter((p) => p.kind === 'gain').every((p) => p.gain.goal !== 0);
      const old = side && all.get(side);
      if (old) old.ends = Math.max(old.ends, ends);
      else all.set(side || s, { at: s.at, ends, side: side ? side.pan.value : null, cut: s.cut, heard });
    }
    return [...all.values()].sort((a, b) => a.at - b.at);
  };
}
