package verify

import (
	"fmt"
	"strconv"

	"tieover/score/beat"
)

// wrongPitch is a note that sounds at its moment, but something else.
type wrongPitch struct {
	want, got   note
	otherLength bool // than it should have
}

// interval returns how many semitones too high the note is. ok is false when it
// is no matter of pitch.
func (c *comparison) interval(p wrongPitch) (semitones int, ok bool) {
	want, err := strconv.Atoi(c.words.String(p.want.sound))
	got, err2 := strconv.Atoi(c.words.String(p.got.sound))
	return got - want, err == nil && err2 == nil
}

// otherPitches reports notes of other pitch, layer by layer. A row of them that
// are all off by one interval, without a right note between, was transposed as
// a whole: one difference.
func (c *comparison) otherPitches(wrong []wrongPitch, m *matching) {
	for layer := range c.names {
		var right []beat.Time // onsets of the layer's notes that are as they should be
		for i, j := range m.got {
			if j >= 0 && c.want[i].layer == layer {
				right = append(right, c.want[i].onset)
			}
		}
		var row []wrongPitch
		report := func() {
			if len(row) >= fewestInRun {
				c.transposed(row)
			} else {
				for _, p := range row {
					c.otherPitch(p)
				}
			}
			row = row[:0]
		}
		for _, p := range wrong {
			if p.want.layer != layer {
				continue
			}
			broken := false
			for len(right) > 0 && right[0] <= p.want.onset {
				right, broken = right[1:], true
			}
			by, ok := c.interval(p)
			if len(row) > 0 {
				before, _ := c.interval(row[0])
				broken = broken || by != before || p.otherLength || row[0].otherLength
			}
			if broken || !ok {
				report()
			}
			row = append(row, p)
		}
		report()
	}
}

// transposed reports a row of notes that are off by one interval.
func (c *comparison) transposed(row []wrongPitch) {
	first, last := row[0], row[len(row)-1]
	by, _ := c.interval(first)
	layer := c.names[first.want.layer]
	want, got := c.words.String(first.want.name), c.words.String(first.got.name)
	c.add(first.want.onset, Difference{Kind: Transposed, Layer: layer, Count: len(row), Want: want, Got: got,
		text: fmt.Sprintf("from here to %v %s sounds %s (%d notes; the first is %s, spec says %s)",
			c.where(last.want.onset), layer, tooHigh(by), len(row), got, want)})
}

// tooHigh says an interval in semitones.
func tooHigh(semitones int) string {
	way, n := "too high", semitones
	if n < 0 {
		way, n = "too low", -n
	}
	switch {
	case n == 1:
		return "a semitone " + way
	case n == 12:
		return "an octave " + way
	case n%12 == 0:
		return fmt.Sprintf("%d octaves %s", n/12, way)
	}
	return fmt.Sprintf("%d semitones %s", n, way)
}
