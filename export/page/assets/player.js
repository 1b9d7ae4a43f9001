"use strict";
// Plays the piece and moves the sounding place through the figures. Everything
// that is drawn is already in the page; this only shows, hides and moves it.
(() => {
  const $ = (id) => document.getElementById(id);
  const data = JSON.parse($("score").textContent);

  // ---- musical time: ticks, and seconds at the written tempo

  const tempos = data.tempos.map(([at, n, d]) => ({ at, quarters: n / d, perTick: (240 * d) / n / data.grid, sec: 0 }));
  for (let i = 1; i < tempos.length; i++) {
    tempos[i].sec = tempos[i - 1].sec + (tempos[i].at - tempos[i - 1].at) * tempos[i - 1].perTick;
  }
  // last returns the index of the last item whose key is at most x, -1 if none.
  const last = (list, x, key) => {
    let low = 0, high = list.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (key(list[middle]) <= x) low = middle + 1; else high = middle;
    }
    return low - 1;
  };
  const tempoAt = (t) => tempos[Math.max(0, last(tempos, t, (x) => x.at))];
  const secondsAt = (t) => { const x = tempoAt(t); return x.sec + (t - x.at) * x.perTick; };
  const ticksAt = (s) => { const x = tempos[Math.max(0, last(tempos, s, (y) => y.sec))]; return x.at + (s - x.sec) / x.perTick; };

  const passes = data.passes.map(([section, start, time]) => ({ section, start, time }));
  const passAt = (t) => Math.max(0, last(passes, t, (p) => p.start));

  // ---- all sounds in order, clicks apart

  const layers = []; // one a name and letter, through all sections
  const layerOf = (name) => {
    let l = layers.find((x) => x.name === name);
    if (!l) layers.push(l = { name, silent: false, alone: false, side: null });
    return l;
  };
  const sounds = [], clicks = [];
  for (const pass of passes) {
    const s = data.sections[pass.section];
    for (const row of s.layers) {
      const layer = layerOf(row.name);
      for (const e of row.events) sounds.push({ at: pass.start + e[0], len: e[1], vel: e[2], keys: e.slice(3), layer, kind: row.kind, pan: row.pan });
    }
    for (const [start, kind] of s.bars) {
      s.meters[kind].slice(1).forEach((b, i) => clicks.push({ at: pass.start + start + b, down: i === 0 }));
    }
  }
  sounds.sort((a, b) => a.at - b.at);

  // ---- sound

  let audio = null, master = null, noise = null, click = null;
  const sideOf = (l, pan) => (l.side === null ? pan / 90 : l.side);
  const heard = (l) => !l.silent && (l.alone || !layers.some((x) => x.alone));

  function startAudio() {
    if (audio) return audio.state === "suspended" ? audio.resume() : undefined;
    audio = new (window.AudioContext || window.webkitAudioContext)();
    master = audio.createGain();
    const limit = audio.createDynamicsCompressor();
    master.connect(limit).connect(audio.destination);
    setVolume();
    noise = audio.createBuffer(1, audio.sampleRate, audio.sampleRate);
    const samples = noise.getChannelData(0);
    for (let i = 0, x = 1; i < samples.length; i++) { // the same noise each time
      x = (x * 16807) % 2147483647;
      samples[i] = x / 1073741823.5 - 1;
    }
    for (const l of layers) {
      l.gain = audio.createGain();
      l.gain.connect(master);
    }
    click = audio.createGain();
    click.connect(master);
    mix();
  }
  function setVolume() {
    if (master) master.gain.setTargetAtTime(($("volume").value / 100) ** 2, audio.currentTime, 0.02);
  }
  const share = Math.min(1, 4 / layers.length); // all layers at once are no louder than four
  function mix() {
    if (!audio) return;
    for (const l of layers) l.gain.gain.setTargetAtTime(heard(l) ? 1 : 0, audio.currentTime, 0.01);
  }

  const running = new Set(); // what may still have to be cut off
  function source(node, stop) {
    running.add(node);
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
    o.start(at);
    source(o, stop);
    return o;
  }
  function hiss(filter, hz, out, at, stop) {
    const n = audio.createBufferSource(), f = audio.createBiquadFilter();
    n.buffer = noise;
    n.loop = true;
    f.type = filter;
    f.frequency.value = hz;
    n.connect(f).connect(out);
    n.start(at);
    source(n, stop);
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
    if (place.pan) place.pan.value = Math.max(-1, Math.min(1, sideOf(e.layer, e.pan)));
    place.connect(e.layer.gain);
    const loud = 0.5 * (e.vel / 127) ** 1.6;
    for (const key of e.keys) kinds[e.kind](key, place, at, len, Math.max(0.001, loud / Math.sqrt(e.keys.length)));
  }
  function clickAt(e, at) {
    tone("square", e.down ? 1760 : 1320, envelope(click, at, e.down ? 0.22 : 0.13, 0.001, { to: 0, time: 0.012 }, at + 0.05, 0.01), at, at + 0.12);
  }

  // ---- the course of playing

  const ahead = 0.18; // seconds that are handed to the sound card in advance
  let playing = false, place = 0; // place: ticks, while stopped
  let anchors = [], nextSound = 0, nextClick = 0, timer = 0, reached = 0;
  const rate = () => $("tempo").value / 100;
  const loopFrom = () => +$("from").value, loopTo = () => +$("to").value;
  const looping = () => $("loop").checked && loopTo() > loopFrom();
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
      const limit = audio.currentTime + ahead;
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
    await startAudio();
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
    requestAnimationFrame(frame);
  }

  // ---- the sounding place

  const number = (e, name) => +e.dataset[name];
  const parts = data.sections.map((s, i) => {
    const root = $("section" + i);
    const onsets = [...new Set(s.layers.flatMap((l) => l.events.map((e) => e[0])))].sort((a, b) => a - b);
    return {
      root, onsets,
      lit: new Set(),
      figures: [".wide svg.figure", ".wide svg.composite", ".narrow svg.figure", ".narrow svg.composite"].map((which) =>
        [...root.querySelectorAll(which)].map((svg) => ({
          from: number(svg, "from"), to: number(svg, "to"), left: number(svg, "left"), width: number(svg, "width"), time: number(svg, "time"),
          now: new Map([...svg.querySelectorAll(".now")].map((e) => [number(e, "row"), e])),
        }))),
      clocks: [...root.querySelectorAll(".clocks > li")].map((li) => {
        const faces = [...li.querySelectorAll("svg.clock")].map((svg) => ({
          box: svg.parentElement.classList.contains("face") ? svg.parentElement : svg, turn: svg.querySelector(".turn"),
          dots: new Map([...svg.querySelectorAll("[data-at]")].map((c) => [number(c, "at"), c])),
        }));
        return { faces, face: 0, lit: [] };
      }),
      table: new Map([...root.querySelectorAll("tr[data-index]")].map((tr) => [tr.dataset.row + " " + tr.dataset.index, tr])),
    };
  });
  const fine = data.fine; // ticks of the sound in one of the drawings

  // stateOf says what a layer does at section time t: its cycle, the attack that
  // sounds and the pulse that is reached.
  function stateOf(layer, t) {
    const c = last(layer.cycles, t, (x) => x[0]);
    const e = last(layer.events, t, (x) => x[0]);
    const state = { cycle: -1, struck: null, pulse: null };
    if (c >= 0 && t < layer.cycles[c][0] + layer.cycles[c][1]) state.cycle = c;
    if (e >= 0 && t < layer.events[e][0] + layer.events[e][1]) {
      state.struck = layer.events[e][0];
      const start = c >= 0 ? layer.cycles[c][0] : 0;
      state.pulse = Math.max(state.struck, start + Math.floor((t - start) / layer.unit) * layer.unit);
    }
    return state;
  }
  function showSection(part, s, t) {
    const states = s.layers.map((l) => stateOf(l, t));
    const places = states.map((x, row) => [row, x.pulse]).filter((x) => x[1] !== null);
    if (places.length) places.push([-1, part.onsets[last(part.onsets, t, (x) => x)]]);
    light(part, places);
    part.clocks.forEach((clock, row) => showClock(clock, s.layers[row], states[row]));
    for (const tr of part.current || []) { tr.classList.remove("current"); tr.removeAttribute("aria-current"); }
    part.current = states.map((x, row) => part.table.get(row + " " + x.cycle)).filter(Boolean);
    for (const tr of part.current) { tr.classList.add("current"); tr.setAttribute("aria-current", "true"); }
    return states;
  }
  // light fills the stems at the places, [row, time], and empties all others.
  function light(part, places) {
    const lit = new Set();
    for (const lines of part.figures) {
      for (const [row, at] of places) {
        const line = lines[last(lines, at, (x) => x.from * fine)], mark = line && line.now.get(row);
        if (!mark || at >= line.to * fine) continue;
        mark.setAttribute("x", line.left + (line.width * (at - line.from * fine)) / (line.time * fine) - 3.5);
        mark.classList.add("on");
        lit.add(mark);
      }
    }
    for (const mark of part.lit) if (!lit.has(mark)) mark.classList.remove("on");
    part.lit = lit;
  }
  function showClock(clock, layer, state) {
    for (const dot of clock.lit) dot.classList.remove("on");
    clock.lit = [];
    if (state.cycle < 0 || !clock.faces.length) return;
    const [start, , face, number] = layer.cycles[state.cycle];
    if (face !== clock.face) {
      clock.faces[clock.face].box.toggleAttribute("hidden", true);
      clock.faces[face].box.toggleAttribute("hidden", false);
      clock.face = face;
    }
    clock.faces[face].turn.textContent = "#" + number;
    if (state.struck === null) return;
    for (const at of [state.struck, state.pulse]) {
      const dot = clock.faces[face].dots.get((at - start) / fine);
      if (dot) { dot.classList.add("on"); clock.lit.push(dot); }
    }
  }
  function clear(part) {
    light(part, []);
    for (const clock of part.clocks) { for (const dot of clock.lit) dot.classList.remove("on"); clock.lit = []; }
    for (const tr of part.current || []) { tr.classList.remove("current"); tr.removeAttribute("aria-current"); }
  }
  let shown = -1, words = "";
  function show(t) {
    const pass = passes[passAt(t)], s = data.sections[pass.section];
    if (shown >= 0 && shown !== pass.section) clear(parts[shown]);
    shown = pass.section;
    const states = showSection(parts[shown], s, t - pass.start);
    const text = wherein(pass, t - pass.start);
    if (text !== words) $("where").textContent = words = text;
    tellRate(t);
    return states;
  }
  function tellRate(t) {
    const text = `${$("tempo").value} %, quarter = ${Math.round(tempoAt(t).quarters * rate() * 10) / 10}`;
    if ($("rate").textContent === text) return;
    $("rate").textContent = text;
    $("tempo").setAttribute("aria-valuetext", text);
  }
  function wherein(pass, t) {
    const s = data.sections[pass.section];
    const i = Math.max(0, last(s.bars, t, (b) => b[0]));
    const beats = s.meters[s.bars[i][1]].slice(1);
    const k = Math.max(0, last(beats, t - s.bars[i][0], (b) => b));
    const name = data.sections.length > 1 ? `${s.name}, ` : "", again = pass.time > 1 ? "second time, " : "";
    return `${name}${again}bar ${s.first + i} beat ${k + 1}`;
  }

  // ---- stepping in silence

  function say(text) { $("said").textContent = text; }
  function jump(t, text) {
    halt(undefined, "");
    place = Math.max(0, Math.min(t, data.length));
    const states = show(place);
    follow();
    const pass = passes[passAt(place)], s = data.sections[pass.section];
    const told = s.layers.map((l, i) => (states[i].cycle < 0 ? "" : `${l.name} cycle ${l.cycles[states[i].cycle][3]}, ${l.drifts[states[i].cycle]}`)).filter(Boolean);
    say([text, wherein(pass, place - pass.start), ...told].filter(Boolean).join("; "));
  }
  function follow() { // bring the line that sounds into view
    const part = parts[shown];
    const on = [...part.root.querySelectorAll(".now.on")].find((e) => e.getClientRects().length);
    if (!on) return;
    const line = on.closest("svg").getBoundingClientRect(), bar = document.querySelector(".main").getBoundingClientRect();
    if (line.top < bar.bottom || line.bottom > innerHeight) on.closest("svg").scrollIntoView({ block: "center" });
  }
  function starts() { // the chosen layer's cycles, through the whole piece
    const all = [];
    for (const pass of passes) {
      for (const l of data.sections[pass.section].layers) {
        if (l.name === $("by").value) for (const c of l.cycles) all.push(pass.start + Math.max(0, c[0]));
      }
    }
    return all;
  }
  function meetings() {
    const all = [];
    for (const pass of passes) {
      all.push({ at: pass.start, label: data.sections[pass.section].name });
      for (const m of data.sections[pass.section].marks) all.push({ at: pass.start + m.at, label: m.label });
    }
    all.push({ at: data.length, label: "the end" });
    return all;
  }
  function step(times, way) {
    const t = now();
    const next = way > 0 ? times.find((x) => x > t + 0.001) : times.filter((x) => x < t - 0.001).pop();
    if (next !== undefined) jump(next, "");
  }
  const stepCycle = (way) => step(starts(), way);
  const stepMeeting = (way) => step(meetings().map((m) => m.at), way);

  // ---- controls

  function option(select, value, text) {
    const o = document.createElement("option");
    o.value = value;
    o.textContent = text;
    select.append(o);
  }
  function controls() {
    const seen = new Set();
    for (const m of meetings()) {
      const text = seen.has(m.label) ? `${m.label} again` : m.label;
      seen.add(m.label);
      option($("from"), m.at, text);
      option($("to"), m.at, text);
    }
    $("to").value = data.length;
    for (const l of layers) option($("by"), l.name, l.name);
    layers.forEach((l, i) => {
      const row = document.createElement("tr"), name = document.createElement("th");
      name.scope = "row";
      name.append(document.createElement("bdi"));
      name.firstChild.textContent = l.name;
      row.append(name);
      for (const what of ["alone", "silent"]) {
        const cell = document.createElement("td"), b = document.createElement("button");
        b.type = "button";
        b.textContent = what;
        b.id = `${what}${i}`;
        b.setAttribute("aria-pressed", "false");
        b.setAttribute("aria-label", `${l.name} ${what}`);
        b.onclick = () => { l[what] = !l[what]; b.setAttribute("aria-pressed", l[what]); mix(); };
        cell.append(b);
        row.append(cell);
      }
      const cell = document.createElement("td"), side = document.createElement("select");
      side.id = `side${i}`;
      side.setAttribute("aria-label", `${l.name} side`);
      for (const [value, text] of [["", "side: as given"], ["-1", "left"], ["-0.5", "half left"], ["0", "middle"], ["0.5", "half right"], ["1", "right"]]) option(side, value, text);
      side.onchange = () => { l.side = side.value === "" ? null : +side.value; };
      cell.append(side);
      row.append(cell);
      $("mix").append(row);
    });
  }
  function toggleComposite() {
    const on = $("composite").getAttribute("aria-pressed") !== "true";
    $("composite").setAttribute("aria-pressed", on);
    for (const e of document.querySelectorAll(".together")) e.hidden = !on;
    say(on ? "composite shown" : "composite hidden");
  }
  const toggle = () => (playing ? halt(undefined, "paused") : play());

  controls();
  $("play").onclick = toggle;
  $("back").onclick = () => stepCycle(-1);
  $("on").onclick = () => stepCycle(1);
  $("meet").onclick = () => stepMeeting(1);
  $("home").onclick = () => jump(0, "start");
  $("volume").oninput = setVolume;
  $("composite").onclick = toggleComposite;
  $("print").onclick = () => window.print();
  for (const id of ["loop", "from", "to"]) $(id).onchange = again;
  let before = rate();
  $("tempo").oninput = () => { // keep the place: the anchors were made at the old rate
    if (playing) {
      const a = anchors[Math.max(0, last(anchors, audio.currentTime, (x) => x.at))];
      const t = ticksAt(a.sec + Math.max(0, audio.currentTime - a.at) * before);
      hush();
      begin(t, audio.currentTime);
    }
    before = rate();
    tellRate(now());
  };
  document.addEventListener("keydown", (e) => {
    if (e.ctrlKey || e.metaKey || e.altKey) return;
    const own = e.target.closest && e.target.closest("input, select, textarea, button, summary, a");
    if (own && (e.key === " " || own.matches("input, select, textarea"))) return;
    const keys = {
      " ": toggle, c: toggleComposite, Home: () => jump(0, "start"),
      ArrowRight: () => (e.shiftKey ? stepMeeting(1) : stepCycle(1)),
      ArrowLeft: () => (e.shiftKey ? stepMeeting(-1) : stepCycle(-1)),
    };
    if (!keys[e.key]) return;
    e.preventDefault();
    keys[e.key]();
  });
  if (matchMedia("(max-width: 640px)").matches) $("more").open = false;
  show(0);
})();
