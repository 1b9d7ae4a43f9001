package bar

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/beat"
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
		// Whole groups stay one sign, parts of two do not.
		{"4/4", "1/8", "x=x===x=", "4+4", "q q~q q", "q h q", "q q~q q"},
		{"4/4", "1/8", "x=====x=", "4+4", "h~q q", "h. q", "h~q q"},
		{"4/4", "1/8", "x=x=====", "4+4", "q q~h", "q h.", "q q~h"},
		{"4/4", "1/8", "x=====xx", "2+4+2", "h. e e", "h. e e", "h~q e e"},
		{"4/4", "1/8", "xx====xx", "3+3+2", "e q~q. e e", "e q.~q e e", "e e~q~q e e"},
		{"4/4", "1/8", "x=x=====", "2+2+4", "q h.", "q h.", "q q~h"},
		// Compound beats are never hidden by the meter, pulses may be.
		{"9/8", "1/8", "xx==x====", "1+3+5", "e q. q~q.", "e q~e q~q.", "e q~e q~q."},
		{"6/8", "1/16", "x==x==x=====", "6+6", "e. e. q.", "e. e. q.", "e~s s~e q."},
		// The fewest signs, then the fewest beats covered, then the most equal, then the longer first.
		{"5/4", "1/8", "x=========", "10", "h.~h", "h.~h", "h.~h"},
		{"7/4", "1/8", "x=========x===", "10+4", "h.~h h", "h.~h h", "h.~h h"},
		{"7/4", "1/8", "x===x=========", "4+10", "h h~h.", "h h~h.", "h h~h."},
		{"7/4", "1/8", "xx============", "1+13", "e e~w.", "e e~w.", "e e~w."},
		{"3/4", "1/8", "xx====", "1+5", "e e~h", "e e~h", "e e~h"},
		{"3/4", "1/8", "x====x", "5+1", "h~e e", "h~e e", "h~e e"},
		{"3/4", "1/16", "xx==========", "1+11", "s e.~h", "s e.~h", "s s~e~h"},
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
		{"3/4", "1/8", "x.....", "", "e re rq rq"},
		{"3/4", "1/8", ".....x", "", "rq rq re e"},
		{"5/4", "1/4", "x....", "", "q rq rq rq rq"},
		{"2/2", "1/4", "x...", "", "q rq rh"},
		{"8/8", "1/8", "xxxx....", "", "e e e e rh"},
		{"6/8", "1/8", "..xxxx", "", "re re e e e e"},
		{"12/8", "1/8", "......xxxxxx", "", "rq. rq. e e e e e e"},
		{"12/8", "1/8", "xxxxxx......", "", "e e e e e e rq. rq."},
		{"5/8", "1/8", "xx...", "", "e e rq."},
		{"5/8", "1/8", "...xx", "", "rq re e e"},
		{"7/8", "1/16", "x.............", "", "s rs re rq rq."},
		{"4+3/8", "1/8", "..x.xxx", "", "rq e re e e e"},   // four pulses: two and two
		{"5+3/8", "1/8", ".....xxx", "", "rq rq re e e e"}, // five: by twos, as in 5/8 (common practice)
		{"4+7/8", "1/8", "xxxx.......", "", "e e e e rq rq rq re"},
		{"4/4", "1/8 3:2", "xxx.........", "4+4+4", "[3:2 e e e] rq rh"}, // no rest ends at a third
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

// A sound or a silence that ends between two 128ths has no sign.
func TestShorterThanA128th(t *testing.T) {
	const fine beat.Grid = 256
	for _, c := range []struct {
		why  string
		list []Segment
		fits bool
	}{
		{"128ths", []Segment{{At: 0, Length: 2}, {At: 2, Length: 62}}, true},
		{"and rests of them", []Segment{{At: 0, Length: 2}, {At: 60, Length: 2}}, true},
		{"sounds of a 256th", []Segment{{At: 0, Length: 1}, {At: 1, Length: 63}}, false},
		{"a rest from a 256th on", []Segment{{At: 0, Length: 63}}, false},
	} {
		sig := signature(t, "1/4")
		v := VoiceInput{Voice: &VoicePlan{Staff: 1}, Pulse: pulseOf(t, "1/4"), Unit: 64, Segments: c.list}
		w := Writer{NoteValues: NoteValues{Grid: fine}}
		_, _, err := w.Write(&Input{Signature: sig, MetricGrid: NewMetricGrid(sig, fine), Voices: []VoiceInput{v}})
		if c.fits {
			assert.NoError(t, err, c.why)
		} else {
			assert.EqualError(t, err, "it needs a note shorter than a 128th", c.why)
		}
	}
}
