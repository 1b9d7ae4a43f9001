package midi

import (
	"bytes"
	"cmp"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score"
	"tieover/score/instrument"
	"tieover/score/sample"
	"tieover/score/spec/spectest"
)

// onset is what must be found again of an attack: exact times in ticks of the
// piece, and the key of a pitched one.
type onset struct {
	at, key int64
}

// Whatever the spec, the file's notes are the attacks of its sections, one
// after another, repeats played out: same onsets, same pitches; and none more,
// where nothing is rolled or led in to.
func TestRandomSections(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := spectest.Read(rt, sample.YAMLs(rt)...)
		var b bytes.Buffer
		if err := Write(&b, p, Options{CountIn: 1}); err != nil {
			require.ErrorAs(rt, err, &Unfit{})
			return
		}
		first := p.Sections[0].Bar(p.Sections[0].FirstN())
		lead := int64(p.Grid.Must(first.Signature.Span()) + first.Skipped)
		quarter := int64(b.Bytes()[12])<<8 | int64(b.Bytes()[13])
		want, left := written(p, lead), map[onset]int{}
		for _, n := range notesOf(t, b.Bytes()) {
			key := int64(n.key)
			if n.channel == drumChannel {
				key = -1
			}
			at := n.on * int64(p.Grid)
			if n.channel != drumChannel || at >= lead*4*quarter { // what comes before is the count-in
				left[onset{at, key}]++
			}
		}
		for _, o := range want {
			o.at *= 4 * quarter
			require.Positive(rt, left[o], "%v is missing", o)
			if left[o]--; left[o] == 0 {
				delete(left, o)
			}
		}
		if !adorned(p) {
			require.Empty(rt, left)
		}
	})
}

// adorned reports whether some attack is rolled or led in to.
func adorned(p *score.Piece) bool {
	for _, s := range p.Sections {
		for _, l := range s.Layers {
			if l.MostGraces() > 0 || slices.ContainsFunc(l.Touches, func(t score.Touch) bool { return t.Has(score.Rolled | score.Flam | score.Drag) }) {
				return true
			}
		}
	}
	return false
}

func order(list []onset) {
	slices.SortFunc(list, func(a, b onset) int { return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.key, b.key)) })
}

// written lists the attacks of the sections, laid end to end from a lead on.
func written(p *score.Piece, lead int64) []onset {
	all, start := []onset{}, lead
	for _, s := range p.Sections {
		times := 1
		if s.End == score.Repeat {
			times = max(2, s.Times)
		}
		start -= int64(s.Opening())
		for time := range times {
			for i, l := range s.Layers {
				for at, a := range s.Attacks(i) {
					if at < 0 && time > 0 { // the pickup is played once
						continue
					}
					keys := []int64{}
					for _, tone := range a.Tones {
						key := int64(-1 - len(keys)) // two drums of a chord are two notes
						if tone.IsPitched() && l.Instrument.Family != instrument.Bare {
							key = int64(tone.Key())
						}
						keys = append(keys, key)
					}
					slices.Sort(keys)
					for _, key := range slices.Compact(keys) {
						all = append(all, onset{start + int64(at), max(key, -1)})
					}
				}
			}
			start += int64(s.Extent())
		}
	}
	order(all)
	return all
}
