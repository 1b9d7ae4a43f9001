// Package layout writes a score down: which bars follow each other, with what
// marks, systems and pages. What is in one bar is layout/bar's. It knows
// nothing of file formats.
//
// Lay (score), LayPart (one player), LayAll (both) and LayComposite make sheets, on which
// layout/edit works. Each walks every bar once and reports all that cannot be written
// (each layer and reason once); after that a walk cannot fail. A sheet holds no bars:
// Part.Bars makes them.
//
//   - The walk: framer yields what a bar has in common in all parts (barlines, labels,
//     plan, breaks); a cursor for each voice reads the layer's cycles and cuts what
//     reaches into the bar; bar.Input is everything the bar's content depends on. Its
//     bytes are the memo key: equal input, equal *Measure (4,096 a walk, of 16,384 notes
//     and rests, emptied when full). A new feature that changes the content of a bar must
//     put its cause into bar.Input, and AppendKey must write it.
//   - Packages that know nothing of the walk: layout/staves divides a player's
//     layers over staves and voices, layout/cyclebars makes bars of cycles, layout/systems
//     chooses systems and pages, layout/composite makes one player's music of all.
//   - The layers on one side of a percussion staff are one voice (sides.go): a cursor
//     of several, beamed by the meter and never tied. Its notes have the names of their layers.
//   - Tablature (tablature.go) is a staff without voices, of parts printed alone: the
//     heads of the staff above have their strings and frets.
//   - A pickup is a bar whose measure skips the beginning of its signature: it has a
//     bar.MetricGrid of its own, is never gathered, and counts for no system.
//   - What may differ between equal bars is a Mark, a Barline, a Break: marks.go,
//     framesection.go.
//   - Systems: the score's are chosen from its periods, while it is walked. A part printed
//     alone chooses its own in the walk that proves it, rests gathered, and then pages, if
//     their room is given (proof.go). At most 16,384 systems are kept, however long the part.
//   - A part is walked twice: to prove it and choose its systems, and to write it
//     (TestLaidTwice). The walk that proves a part printed alone proves it in the score
//     too, if both have the same bars (LayAll). Where beams are to go on over barlines the
//     first walk notes it, a bit for each bar and voice.
//   - Random sections: go test ./layout -run TestLayoutKeepsTheMusic
//     -rapid.checks=10000; every option and view is drawn; TestSampledPieces does the
//     same for pieces of several sections from score/sample. Spelling, rests, beams,
//     tuplet tables in lay_test.go, marks and views in views_test.go, heads in
//     heads_test.go.
//   - To add a mark: a MarkKind, its name in dump.go, its writer in marks.go, its sign
//     in each exporter. To add a barring view: an iterator of score.Bar in barsOf.
//   - BenchmarkRepeatedBar reports processor time (cpu-ns/op): 1.1–1.4 µs a bar, one
//     allocation, on a busy AMD EPYC with two shared cores (go test ./layout -run XXX
//     -bench RepeatedBar -benchtime 300000x).
package layout
