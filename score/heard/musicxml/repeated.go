package musicxml

import (
	"maps"
	"slices"

	"tieover/score/heard"
)

// repeatStyle reads where signs begin or end that repeat the last bars, so many of them
// (MusicXML 4.0, measure-repeat).
func (b *barReading) repeatStyle(style *element) {
	e := style.kid("measure-repeat")
	if e == nil {
		return
	}
	state := &b.part.state
	staff := staffNumber(style.get("number"), 0)
	n, ok := wholeNumber(e.text)
	switch {
	case e.get("type") == "stop" && staff == 0:
		clear(state.repeats)
	case e.get("type") == "stop":
		delete(state.repeats, staff)
	case ok && n >= 1 && n <= maxBars:
		state.repeats[staff] = int(n)
	default:
		b.remark(heard.Misfit, "bar %s has a sign that does not say how many bars it repeats", b.bar.number)
	}
}

// repeatNotes gives a bar with such a sign the notes of the one that it stands for, where
// the file does not write them out.
func (b *barReading) repeatNotes() error {
	for _, staff := range slices.Sorted(maps.Keys(b.part.state.repeats)) {
		on := func(n readNote) bool { return staff == 0 || n.staff == staff }
		if slices.ContainsFunc(b.bar.notes, on) {
			continue
		}
		at := len(b.part.bars) - b.part.state.repeats[staff]
		if at < 0 || b.part.bars[at].meter.length != b.bar.meter.length {
			b.remark(heard.Misfit, "bar %s repeats a bar that is not there or not as long", b.bar.number)
			continue
		}
		from := b.part.bars[at]
		by := b.bar.grid / from.grid // grids only ever grow by whole factors
		for _, n := range from.notes {
			if !on(n) {
				continue
			}
			if b.notes++; b.notes > maxNotes {
				return failed(b.bar.line, "more than %d notes", maxNotes)
			}
			n.at, n.length = n.at*by, n.length*by
			b.bar.notes = append(b.bar.notes, n)
		}
		if b.bar.fill == 0 {
			b.bar.fill, b.bar.ends = from.fill*by, nil
		}
	}
	return nil
}
