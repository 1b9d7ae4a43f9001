package bar

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func unbeamed(s string) string {
	return strings.NewReplacer("(", "", ")", "", ",", "", "<", "", ">", "").Replace(s)
}

// Spelling by group, by the meter and strictly, by hand from the rules of
// doc.go: a group keeps its value unless it begins off the beat and hides more
// than one beat, off the half beat any.
func TestSpelledBy(t *testing.T) {
	for _, c := range []struct{ meter, step, steps, groups, group, meterWise, strictly string }{
		{"4/4", "1/8", "x==x==x=", "3+3+2", "q. q. q", "q. e~q q", "q~e e~q q"},
		{"4/4", "1/8", "x====x==", "5+3", "h~e q.", "h~e q.", "h~e e~q"},
		{"4/4", "1/8", "xx=====x", "1+6+1", "e q.~q. e", "e q.~q. e", "e e~q~q~e e"},
		{"4/4", "1/8", "x=x===x=", "2+4+2", "q h q", "q h q", "q q~q q"},
		{"3/4", "1/8", "xx===x", "1+4+1", "e q.~e e", "e q.~e e", "e e~q~e e"},
		{"2/4", "1/16", "x==x==x=", "3+3+2", "e. s~e e", "e. s~e e", "e~s s~e e"},
		{"4/4", "1/8", "==x==x==", "3+3+3", "~q q. q.", "~q q~e q.", "~q q~e e~q"},
		{"6/8", "1/8", "x===x=", "4+2", "h q", "q.~e q", "q.~e q"},
		{"3+2/8", "1/8", "x===x", "4+1", "h e", "q.~e e", "q.~e e"},
		{"2/2", "1/8", "x=====x=", "6+2", "h. q", "h~q q", "h~q q"},
	} {
		d := drawing{meter: c.meter, step: c.step, steps: c.steps, groups: c.groups}
		if strings.HasPrefix(c.steps, "=") {
			d.before = 1
		}
		assert.Equal(t, c.group, unbeamed(d.rhythm(t)), "%s %s by group", c.meter, c.steps)
		d.plainSpelling = true
		assert.Equal(t, c.meterWise, unbeamed(d.rhythm(t)), "%s %s by the meter", c.meter, c.steps)
		d.strict = true
		assert.Equal(t, c.strictly, unbeamed(d.rhythm(t)), "%s %s strictly", c.meter, c.steps)
	}
}

// Rests show the bar's own division; by group they are cut at the groups.
func TestRestsOfABar(t *testing.T) {
	for _, c := range []struct{ meter, step, steps, groups, is string }{
		{"4/4", "1/8", "........", "", "rbar"},
		{"4/4", "1/8", "x.......", "", "e re rq rh"},
		{"4/4", "1/8", "......xx", "", "rh rq e e"},
		{"4/4", "1/8", "xx....xx", "", "e e rq rq e e"},
		{"6/8", "1/8", "...x..", "", "rq. e re re"},
		{"3+2/8", "1/8", "...xx", "", "rq. e e"},
		{"7/8", "1/8", "x==....", "", "q. re rq."},
		{"4/4", "1/8", "x...x...", "3+3+2", "e re re re e re rq"},
		{"2/4", "1/16", "...x....", "", "re rs s rq"},
	} {
		d := drawing{meter: c.meter, step: c.step, steps: c.steps, groups: c.groups}
		assert.Equal(t, c.is, unbeamed(d.rhythm(t)), "%s %s", c.meter, c.steps)
	}
}

// What needs notes shorter than a 128th, or tuplets in tuplets, is refused.
func TestUnwritable(t *testing.T) {
	for _, c := range []struct {
		why  string
		at   []string // attacks in a bar of a quarter, after the first
		fits bool
	}{
		{"sevenths of a whole are sevenths of the quarter too", []string{"1/7"}, true},
		{"threes and fives are fifteen parts", []string{"1/12", "3/20"}, true},
		{"threes in the first eighth, sevens in the second", []string{"1/12", "3/14"}, true},
		{"threes and sevens in one 32nd", []string{"1/96", "3/112"}, false},
	} {
		in := drawing{meter: "1/4", step: "1/4", steps: "x"}.input(t)
		v := &in.Voices[0]
		for i, at := range append(c.at, "1/4") {
			end := testGrid.Must(fraction(t, at))
			v.Segments[i].Length = end - v.Segments[i].At
			if end < in.MetricGrid.Length {
				v.Segments = append(v.Segments, Segment{At: end})
			}
		}
		w := Writer{NoteValues: NoteValues{Grid: testGrid}}
		_, _, err := w.Write(in)
		var bad *Unwritable
		assert.Equal(t, !c.fits, errors.As(err, &bad), c.why)
	}
}
