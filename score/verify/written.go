package verify

import (
	"fmt"
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// writing is a stretch in which a layer is slashes or a rhythm. Times are ticks of
// the comparison's grid.
type writing struct {
	layer       string
	as          score.Written
	from, to    beat.Time
	first, last string // bars, as printed
}

// write notes where a layer is slashes or a rhythm in a pass, and returns the
// stretches that are its, and perhaps some others'. Each bar is written as at its
// beginning.
func (c *comparison) write(p score.Pass, l *score.Layer) []writing {
	s := c.piece.Sections[p.Section]
	if c.composite || !s.EverWritten(l) {
		return nil
	}
	first := max(0, len(c.written)-1) // which may go on
	finer := beat.Time(c.grid / s.Grid)
	for _, bar := range c.passBars(p) {
		as := s.WrittenAt(l, bar.start/finer-p.At)
		if as != score.AsSlashes && as != score.AsRhythm {
			continue
		}
		if n := len(c.written) - 1; n >= 0 && c.written[n].layer == l.Name && c.written[n].as == as && c.written[n].to == bar.start {
			c.written[n].to, c.written[n].last = bar.end(), bar.number
			continue
		}
		c.written = append(c.written, writing{l.Name, as, bar.start, bar.end(), bar.number, bar.number})
	}
	return c.written[first:]
}

// asWritten says how an attack is written, and whether its sound is cut off where
// the way of writing changes.
func asWritten(stretches []writing, l *score.Layer, at, end beat.Time) (as score.Written, cut bool) {
	as = score.AsNotes
	for _, w := range stretches {
		if w.layer != l.Name {
			continue
		}
		if w.from <= at && at < w.to {
			as = w.as
		}
		cut = cut || at < w.from && w.from < end || at < w.to && w.to < end
	}
	return as, cut
}

// slashed reports whether what the score has at a moment is not compared: slashes, or
// anything where all layers of the part are slashes.
func (c *comparison) slashed(onset beat.Time, slash bool) bool {
	n := 0
	for _, w := range c.written {
		if w.as == score.AsSlashes && w.from <= onset && onset < w.to {
			n++
		}
	}
	return n > 0 && (slash || n == len(c.layers))
}

// writtenRemarks says what is compared in part or not at all, once for bars that are
// played more than once.
func (c *comparison) writtenRemarks() (lines []string) {
	for _, w := range c.written {
		bars, are := fmt.Sprintf("bars %s-%s", w.first, w.last), "are"
		if w.first == w.last {
			bars, are = "bar "+w.first, "is"
		}
		what := "slashes and not compared"
		if w.as == score.AsRhythm {
			what = "a rhythm, of which only the onsets are compared"
		}
		if line := fmt.Sprintf("%s %s %s %s", w.layer, bars, are, what); !slices.Contains(lines, line) {
			lines = append(lines, line)
		}
	}
	return lines
}
