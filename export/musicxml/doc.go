// Package musicxml writes a sheet as MusicXML 4.0. It decides nothing musical:
// every sign in the file is on the sheet.
//
// Write streams a sheet part after part; memory does not grow with the bars.
//
// Laws:
//
//   - Same sheet, same options, same bytes. No dates, versions, map order.
//   - Notes and rests are written as lines (write_lines.go), what stands around them as a
//     tree: the head, the list of parts, marks, and the edges of bars.
//   - The cached writer gives exactly the bytes of the plainest one (plain_test.go: one
//     tree of everything, written by the library); tested on all fixtures, all sections in
//     all views, random sections.
//   - A number that differs between otherwise equal bars is Mark.N of a kind with a hole
//     (CycleNumber, GroupSize); any other text makes a new template.
//   - Marks of a bar must be in writing order (voice, then event); otherwise the writer
//     panics: it is layout's mistake.
//   - divisions = Grid/4, so durations are ticks.
//   - Bracket and hairpin numbers are the voice's number (1–4 first staff, 5–8 second),
//     so lines never mix.
//
// To add a mark: a kind in layout/sheet/mark.go, a case in markElements, its hand-written XML in
// marks_test.go, and one in the sheet everything_test.go, by which the schema and lint see
// it. To add an option: a field in Options, its range in check.
//
// Tests: everything_test.go holds every sign; lint_test.go validates with xmllint and
// turns neighbours round to prove that the schema sees wrong order; checklist_test.go is a
// copyist's list; sections_test.go takes all testdata and starters through views,
// spellings, editions, excerpts, folds, composites, partners; random_test.go random
// sections, read back. Sources: the MusicXML 4.0 reference and schema (W3C Community
// Group), XML 1.0 production 2 for characters, General MIDI for keys and programs, ZIP specification 4.3.7
// for the container's first entry.
//
// .ci/readback/run.sh BINARY: installs the npm library musicxml-io into a temporary
// folder, builds every testdata section, the piece of several sections and every starter
// in up to nine ways, and compares attacks, bars, ties, tuplets and beams with what
// .ci/readback/expect computes from the score model (no layout, no exporter). It ends with
// a spoiled expectation that must be noticed.
//
// Performance (AMD EPYC, two cores shared, Go 1.26; go test ./export/musicxml -run Fast -v
// and -bench Write): eight layers with cycle marks, to a discarding writer behind 64 KiB
//
//   - cached: 8.4 M notes a second, 20–27 times the same encoder bar by bar; 1/1.6 to 1/2.7 of copying the finished bytes
//   - nothing repeats: 1.0 M, 8 times what a tree of each bar took in the same hour
//
// 100,000 bars of eight layers (build -o - --only musicxml): 19 MiB resident, 2.4 s of
// processor time. TestEqualBarsAreWrittenFast measures processor time, so other programs
// on the machine do not decide.
package musicxml
