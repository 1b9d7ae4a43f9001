// Package musicxml reads MusicXML into attacks.
//
// On encoding/xml tokens; shares no code with the writer, so it can judge it. Order:
// read.go (limits, door) → zip.go (.mxl, encodings) → source.go (a window on the file) →
// xml.go (tokens, small trees) →
// score.go, bar.go, note.go, attributes.go, direction.go (every bar as written, in ticks
// of its own grid; the grid grows as finer durations turn up) → order.go (repeats,
// endings, jumps) → perform.go (bar lengths, ties, attacks). A bar lasts as long as its
// meter says, whatever is in it, so one wrong bar moves nothing after it; only uncounted
// (implicit) bars, bars without meter and the halves of a bar split by a repeat last as
// long as their content. A child of a bar that is plainly to be seen to its end is taken
// as text, and the same text is parsed once (at most 1 MiB of each name is remembered);
// anything else goes token by token, with the same result, errors and lines
// (TestWholeChildrenAreReadAsTokens). Limits: 64 MiB (packed and unpacked), ratio 200, 100 entries,
// depth 32, 1,000,000 notes written and played, 1,000,000 bars, grid 2^19, 30 s (the
// command's context). Each limit has a file in testdata/hostile or a test in
// hostile_test.go; a new file there must be added to that test's table with its exact
// error. Fuzz: go test ./score/heard/musicxml -fuzz FuzzRead -fuzzminimizetime 1s, go test
// ./score/heard/midi -fuzz FuzzRead.
package musicxml
