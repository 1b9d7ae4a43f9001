// A recording from the reader's own disk: opened here, sent nowhere, played at any speed without a change of pitch.
const recording = { element: new Audio(), file: null, sides: null };
recording.element.preservesPitch = true;

// openRecording resolves when the file can be played, and rejects with words when it cannot.
function openRecording(file) {
  const e = recording.element;
  e.pause();
  if (recording.file) URL.revokeObjectURL(e.src);
  recording.file = null;
  return new Promise((done, fail) => {
    const no = (why) => {
      URL.revokeObjectURL(e.src);
      e.removeAttribute("src");
      fail(new Error(`${file.name}: ${why}`));
    };
    e.onloadedmetadata = () => {
      if (!Number.isFinite(e.duration) || e.duration <= 0) return no("its length is not known, so it cannot be followed; save it as WAV, MP3, Ogg or FLAC");
      recording.file = file;
      done();
    };
    e.onerror = () => no("this browser cannot play it; save it as WAV, MP3, Ogg or FLAC");
    e.src = URL.createObjectURL(file);
    e.load();
  });
}
// wire leads the recording through the sound card's graph, once there is one.
function wire(context, out) {
  if (recording.sides) return;
  const source = context.createMediaElementSource(recording.element), split = context.createChannelSplitter(2), join = context.createChannelMerger(2);
  source.connect(split);
  const gain = (from, to) => {
    const g = context.createGain();
    split.connect(g, from).connect(join, 0, to);
    return g.gain;
  };
  const volume = context.createGain();
  recording.sides = { ll: gain(0, 0), rr: gain(1, 1), lr: gain(0, 1), rl: gain(1, 0), volume: volume.gain };
  join.connect(volume).connect(out);
}
// hearSides lets both sides be heard, or one of them on both.
function hearSides(side, volume) {
  const s = recording.sides;
  if (!s) return;
  const set = (name, on) => { s[name].value = on ? 1 : 0; };
  set("ll", side !== "right"); set("rr", side !== "left");
  set("lr", side === "left"); set("rl", side === "right");
  s.volume.value = volume;
}
// clockWords writes seconds as 1:02.50.
const clockWords = (s) => {
  const hundredths = Math.floor(s * 100 + 1e-6);
  return `${Math.floor(hundredths / 6000)}:${((hundredths % 6000) / 100).toFixed(2).padStart(5, "0")}`;
};
