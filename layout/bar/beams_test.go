package bar

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
)

// Where a group's beam joins, breaks and hooks. Every row is worked out by hand
// from the rules of doc.go; those are common practice where no source is named.
func TestGroupsBeam(t *testing.T) {
	for _, c := range []struct {
		why string
		d   drawing
		is  string
	}{
		// Joins.
		{"each group has a beam of its own", drawing{meter: "4/4", step: "1/8", steps: "xxxxxxxx", groups: "3+3+2"}, "(e e e) (e e e) (e e)"},
		{"over the beats", drawing{meter: "4/4", step: "1/8", steps: "xxxxxxxx", groups: "1+5+2"}, "e (e e e e e) (e e)"},
		{"the rest of a group from the bar before", drawing{meter: "4/4", step: "1/8", steps: "xxxxxxxx", groups: "5+3+2", before: 2}, "(e e e) (e e e) (e e)"},
		{"a group that the barline cuts", drawing{meter: "4/4", step: "1/8", steps: "xxxxxxxx", groups: "3+3+4"}, "(e e e) (e e e) (e e)"},
		{"a quarter parts the beam", drawing{meter: "4/4", step: "1/8", steps: "xxx=xxxx", groups: "8"}, "(e e) q (e e e e)"},
		{"an eighth rest stays inside", drawing{meter: "4/4", step: "1/8", steps: "x.xx.xxx", groups: "3+3+2"}, "(e re e) (e re e) (e e)"},
		{"a rest at the edge does not", drawing{meter: "4/4", step: "1/8", steps: ".xxxx.xx", groups: "3+3+2"}, "re (e e) (e e) re (e e)"},
		{"one note between rests has a flag", drawing{meter: "4/4", step: "1/8", steps: ".x..xxxx", groups: "3+3+2"}, "re e re re (e e) (e e)"},
		{"a quarter rest parts the beam", drawing{meter: "4/4", step: "1/8", steps: "xx..xxxx", groups: "8"}, "(e e) rq (e e e e)"},
		{"quarter pulses: by the pulse", drawing{meter: "3/4", step: "1/8", pulse: "1/4", steps: "xxxxxx", groups: "6"}, "(e e) (e e) (e e)"},
		{"half pulses too", drawing{meter: "2/2", step: "1/8", pulse: "1/2", steps: "xxxxxxxx", groups: "8"}, "(e e e e) (e e e e)"},
		{"pulses of a group from before the barline", drawing{meter: "3/4", step: "1/8", pulse: "1/4", steps: "xxxxxx", groups: "7", before: 1}, "e (e e) (e e) e"},
		{"pulses of a dotted eighth: the hook stays in its pulse", drawing{meter: "3/8", step: "1/16", pulse: "3/16", steps: "x=xx=x", groups: "6"}, "(e s< e s<)"},
		{"groups of one pulse each", drawing{meter: "2/4", step: "1/8", pulse: "1/4", steps: "xxxx", groups: "2+2"}, "(e e) (e e)"},

		// Beside notes outside all groups: those go by the meter.
		{"after the last group", drawing{meter: "2/4", step: "1/8", steps: "xxxx", groups: "2"}, "(e e) (e e)"},
		{"with sixteenths", drawing{meter: "2/4", step: "1/16", steps: "xxxxxxxx", groups: "2"}, "(s s) (s s) (s s s s)"},
		{"over the beat the group is cut", drawing{meter: "3/4", step: "1/16", steps: "xxxxxxxxxxxx", groups: "6"}, "(s s s s s s) (s s) (s s s s)"},
		{"a triplet over the beat has its own", drawing{meter: "2/4", step: "1/48", pulse: "1/16 3:2", steps: "x==x=x=x=x=x=x=x=x=x=x=="}, "(s [3:2 s s s)] [3:2 (s s s)] [3:2 (s s s] s)"},
		{"before the first group, which breaks the inner beam", drawing{meter: "1/4", step: "1/16", steps: "xxxx", groups: "1+1+1", before: -1}, "(s> s s s)"},
		{"after lone groups: broken at the meter's beats", drawing{meter: "3/8", step: "1/16", steps: "xxxxx.", groups: "1+1+1+1"}, "(s s, s s, s<) rs"},

		// Groups of a single attack.
		{"by two quarters in 4/4", drawing{meter: "4/4", step: "1/8", steps: "xxxxxxxx", groups: "1+1+1+1+1+1+1+1"}, "(e e e e) (e e e e)"},
		{"and in 2/4", drawing{meter: "2/4", step: "1/8", steps: "xxxx", groups: "1+1+1+1"}, "(e e e e)"},
		{"by the beat in 3/4", drawing{meter: "3/4", step: "1/8", steps: "xxxxxx", groups: "1+1+1+1+1+1"}, "(e e) (e e) (e e)"},
		{"by the dotted beat in 6/8", drawing{meter: "6/8", step: "1/8", steps: "xxxxxx", groups: "1+1+1+1+1+1"}, "(e e e) (e e e)"},
		{"by the summand in 3+2/8", drawing{meter: "3+2/8", step: "1/8", steps: "xxxxx", groups: "1+1+1+1+1"}, "(e e e) (e e)"},
		{"a longer group beside them keeps its beam", drawing{meter: "4/4", step: "1/8", steps: "xxxxxxx=", groups: "1+1+2+1+1+2"}, "(e e) (e e) (e e) q"},
		{"and parts them where it lies over the beat", drawing{meter: "4/4", step: "1/8", steps: "xxxxxx==", groups: "1+2+1+1+3"}, "e (e e) e e q."},
		{"a note over the beat's end joins nothing", drawing{meter: "2/4", step: "1/16", steps: "x=x==x==", groups: "2+3+3"}, "e e. e."},
		{"sixteenths in one half only: that half goes by the beat", drawing{meter: "4/4", step: "1/16", steps: "x=x=xxx=x=x=x=x=", groups: "2+2+1+1+2+2+2+2+2"}, "(e e) (s s, e) (e e e e)"},
		{"a dotted eighth likewise", drawing{meter: "4/4", step: "1/16", steps: "x==xx=x=x=x=x=x=", groups: "3+1+2+2+2+2+2+2"}, "(e. s<) (e e) (e e e e)"},
		{"the rest of a longer group does not part them", drawing{meter: "4/4", step: "1/8", steps: "xxxx.xxx", groups: "5+1+1+1"}, "(e e e e) re (e e e)"},
		{"a longer group by pulses beside them", drawing{meter: "4/4", step: "1/8", pulse: "1/4", steps: "xxxxx.x=", groups: "4+2+2"}, "(e e) (e e) e re q"},
		{"begun before the barline", drawing{meter: "4/4", step: "1/16", pulse: "1/4", steps: "x=x=x=x=x...x===", groups: "12+4+4", before: 4}, "(e e) (e e) s rs re q"},
		{"a rest in a triplet parts them", drawing{meter: "2/4", step: "1/8 3:2", steps: "x.xxxx", groups: "1+1+1+1+1+1"}, "[3:2 e re e] [3:2 (e e e)]"},
		{"a longer group keeps its beam in a triplet", drawing{meter: "1/4", step: "1/8 3:2", steps: "xxx", groups: "1+2"}, "[3:2 e (e e)]"},
		{"a rest between them parts nothing of the others", drawing{meter: "4/4", step: "1/8", steps: "xx.xxxxx", groups: "1+1+1+1+1+1+1+1"}, "(e e) re e (e e e e)"},

		// Breaks of the inner beams.
		{"at each pulse longer than the note", drawing{meter: "2/4", step: "1/16", pulse: "1/8", steps: "xxxxxxxx", groups: "4+4"}, "(s s, s s) (s s, s s)"},
		{"not at pulses as long as the note", drawing{meter: "2/4", step: "1/16", steps: "xxxxxxxx", groups: "4+4"}, "(s s s s) (s s s s)"},
		{"32nds in sixteenth pulses break their third level alone", drawing{meter: "1/8", step: "1/32", pulse: "1/16", steps: "xxxx", groups: "4"}, "(32 32, 32 32)"},
		{"a comma is where an inner beam ends, also for want of a short note", drawing{meter: "3/8", step: "1/16", pulse: "1/8", steps: "xxx=xx", groups: "6"}, "(s s, e s s)"},
		{"five levels", drawing{meter: "1/32", step: "1/128", steps: "xxxx", groups: "4"}, "(128 128 128 128)"},
		{"lone sixteenths by the eighth", drawing{meter: "2/4", step: "1/16", steps: "xxxxxxxx", groups: "1+1+1+1+1+1+1+1"}, "(s s, s s) (s s, s s)"},
		{"no sixteenth is cut off from its like: before the break", drawing{meter: "2/4", step: "1/16", steps: "x=xxxxx=", groups: "2+1+1+1+1+2"}, "(e s s) (s s, e)"},
		{"pulses count from a group that began before the barline", drawing{meter: "3/8", step: "1/16", pulse: "3/16", steps: "xxxxxx", groups: "9", before: 1}, "(s s, s s s, s<)"},
		{"a rest saves no note from a pulse's break", drawing{meter: "1/4", step: "1/16", pulse: "1/8", steps: "x.xx", groups: "4"}, "(s> rs s s)"},
		{"lone sevenths count from their tuplet", drawing{meter: "3/8", step: "1/56", pulse: "1/16 7:4", steps: "x======x=x=x=x=x=x=x=", groups: "7+2+2+2+2+2+2+2"}, "e [7:4 (s s, s s, s s s)]"},
		{"three together stay together", drawing{meter: "3+2/16", step: "1/16", steps: "xxxxx", groups: "1+1+1+1+1"}, "(s s s) (s s)"},

		// Hooks.
		{"back to the dotted note before", drawing{meter: "2/4", step: "1/16", steps: "x==xx==x", groups: "4+4"}, "(e. s<) (e. s<)"},
		{"forward to the dotted note after", drawing{meter: "2/4", step: "1/16", steps: "xx==xx==", groups: "4+4"}, "(s> e.) (s> e.)"},
		{"inside, forward on the eighth and back off it", drawing{meter: "1/2", step: "1/16", steps: "x=xx=xx=", groups: "8"}, "(e s> e s< e)"},
		{"counted from the group, not the bar", drawing{meter: "1/2", step: "1/16", steps: "xx=xx=x.", groups: "1+6+1"}, "s (e s> e s<) rs"},
		{"inside a tuplet by its own grid", drawing{meter: "1/4", step: "1/16 7:4", steps: "xx=xx=x", groups: "7"}, "[7:4 (s> e s< e s<)]"},
		{"also where it began before the barline", drawing{meter: "1/2", step: "1/16", steps: "x=xx==x=", groups: "9", before: 1}, "(e s< e. e)"},
		{"also off the sixteenths", drawing{meter: "1/2", step: "1/32", steps: "xx===x=x===.....", groups: "1+10+5"}, "32 (e s> e) r32 re"},
		{"to its own pulse, although it completes an eighth", drawing{meter: "3/4", step: "1/16", pulse: "3/16", steps: "x=x==x==xx==", groups: "12"}, "(e e. e. s< e.)"},
		{"the third level hooks where the second goes on", drawing{meter: "1/4", step: "1/32", steps: "x======x", groups: "8"}, "(e~s. 32<)"},
		{"also inside the beam", drawing{meter: "1/4", step: "1/32", steps: "x=xx===x", groups: "8"}, "(s 32,< e 32<<)"},
		{"a tied note that completes a dotted one", drawing{meter: "3/8", step: "3/32", steps: "xxxx", groups: "1+1+1+1"}, "(s. 32<~s s. s.)"},
		{"and on both levels alike", drawing{meter: "1/2", step: "1/32", steps: "x=====xx===.....", groups: "11+5"}, "(e. 32<< e) r32 re"},
	} {
		assert.Equal(t, c.is, c.d.rhythm(t), c.why)
	}
}

// Beams by the meter: [memory] two quarters in 2/4 and 4/4 while only eighths
// stand there, else the beat; bars of eighths in twos with a three at the end.
func TestMeterBeams(t *testing.T) {
	for _, c := range []struct{ meter, step, steps, is string }{
		{"4/4", "1/8", "xxxxxxxx", "(e e e e) (e e e e)"},
		{"2/4", "1/8", "xxxx", "(e e e e)"},
		{"3/4", "1/8", "xxxxxx", "(e e) (e e) (e e)"},
		{"5/4", "1/8", "xxxxxxxxxx", "(e e) (e e) (e e) (e e) (e e)"},
		{"2/2", "1/8", "xxxxxxxx", "(e e e e) (e e e e)"},
		{"6/8", "1/8", "xxxxxx", "(e e e) (e e e)"},
		{"9/8", "1/8", "xxxxxxxxx", "(e e e) (e e e) (e e e)"},
		{"3+2+2/8", "1/8", "xxxxxxx", "(e e e) (e e) (e e)"},
		{"2/8", "1/8", "xx", "(e e)"},
		{"3/8", "1/8", "xxx", "(e e e)"},
		{"4/8", "1/8", "xxxx", "(e e) (e e)"},
		{"5/8", "1/8", "xxxxx", "(e e) (e e e)"},
		{"7/8", "1/8", "xxxxxxx", "(e e) (e e) (e e e)"},
		{"8/8", "1/8", "xxxxxxxx", "(e e e e) (e e e e)"},
		{"10/8", "1/8", "xxxxxxxxxx", "(e e) (e e) (e e) (e e) (e e)"},
		{"11/8", "1/8", "xxxxxxxxxxx", "(e e) (e e) (e e) (e e) (e e e)"},
		{"4/4", "1/16", "x=xxx=x=x=x=x=x=", "(e s s) (e e) (e e e e)"},
		{"4/4", "1/16", "x=x=x=x=x==xx=x=", "(e e e e) (e. s<) (e e)"},
		{"2/4", "1/16", "xxxxxxxx", "(s s s s) (s s s s)"},
		{"1/4", "1/32", "xxxxxxxx", "(32 32 32 32, 32 32 32 32)"},
		{"3/8", "1/16", "xxxxxx", "(s s, s s, s s)"},
		{"4/4", "1/8", "x.xx.xx.", "(e re e e) re (e e) re"},
		{"2/4", "1/16", "x.xxxx..", "(s rs s s) (s s) re"},
		{"3/8", "1/16", "x.xxxx", "(s> rs s s, s s)"},
		{"3+5/16", "1/16", "xxxx=xx=", "(s s s) (e s> e)"}, // counted from the summand
		{"2/4", "1/8 3:2", "xxxxxx", "[3:2 (e e e)] [3:2 (e e e)]"},
		{"2/2", "1/8 3:2", "xxxxxxxxxxxx", "[3:2 (e e e)] [3:2 (e e e)] [3:2 (e e e)] [3:2 (e e e)]"},
		{"2/4", "1/16 3:2", "xxxxxxxxxxxx", "[3:2 (s s s] [3:2 s s s)] [3:2 (s s s] [3:2 s s s)]"},
	} {
		assert.Equal(t, c.is, drawing{meter: c.meter, step: c.step, steps: c.steps}.rhythm(t), "%s %s, without groups", c.meter, c.steps)
		for _, groups := range []string{"1+2+3+4+5+6", "1+1+1+1+1+1+1+1+1+1+1+1", "4+12+12"} {
			d := drawing{meter: c.meter, step: c.step, steps: c.steps, groups: groups, byMeter: true, plainSpelling: true}
			assert.Equal(t, c.is, d.rhythm(t), "%s %s, groups or not", c.meter, c.steps)
		}
	}
}

// A beam over a barline is open at its end; one note alone may be in the middle.
func TestBeamsOverBarlines(t *testing.T) {
	beams := func(d drawing) (all [][]sheet.Beam, in, out bool) {
		events := d.measure(t).Voices[0].Events
		for _, e := range events {
			if n, ok := e.(*sheet.Note); ok {
				all = append(all, n.Beams)
				in, out = in || n.BeamIn, out || n.BeamOut
			}
		}
		return all, in, out
	}
	const begin, on, end = sheet.BeamBegin, sheet.BeamContinue, sheet.BeamEnd
	for _, c := range []struct {
		why     string
		d       drawing
		is      [][]sheet.Beam
		in, out bool
	}{
		{"in", drawing{meter: "2/8", step: "1/8", steps: "xx", groups: "3", before: 1, beamIn: true}, [][]sheet.Beam{{on}, {end}}, true, false},
		{"out", drawing{meter: "2/8", step: "1/8", steps: "xx", groups: "3", beamOut: true}, [][]sheet.Beam{{begin}, {on}}, false, true},
		{"through", drawing{meter: "2/8", step: "1/8", steps: "xx", groups: "4", before: 1, beamIn: true, beamOut: true}, [][]sheet.Beam{{on}, {on}}, true, true},
		{"one note, in", drawing{meter: "2/8", step: "1/8", steps: "x.", groups: "2+1", before: 1, beamIn: true}, [][]sheet.Beam{{end}}, true, false},
		{"one note, out", drawing{meter: "2/8", step: "1/8", steps: ".x", groups: "1+2", beamOut: true}, [][]sheet.Beam{{begin}}, false, true},
		{"one note, through", drawing{meter: "1/8", step: "1/8", steps: "x", groups: "3", before: 1, beamIn: true, beamOut: true}, [][]sheet.Beam{{on}}, true, true},
		{"one sixteenth, in: its second level hooks back", drawing{meter: "1/8", step: "1/16", steps: "x.", groups: "2+1", before: 1, beamIn: true}, [][]sheet.Beam{{end, sheet.HookBackward}}, true, false},
		{"one sixteenth, out: forward", drawing{meter: "1/8", step: "1/16", steps: ".x", groups: "1+2", beamOut: true}, [][]sheet.Beam{{begin, sheet.HookForward}}, false, true},
		{"one sixteenth, through: forward", drawing{meter: "1/16", step: "1/16", steps: "x", groups: "3", before: 1, beamIn: true, beamOut: true}, [][]sheet.Beam{{on, sheet.HookForward}}, true, true},
		{"a quarter takes no beam in", drawing{meter: "2/4", step: "1/8", steps: "x=xx", groups: "5", before: 1, beamIn: true}, [][]sheet.Beam{nil, {begin}, {end}}, false, false},
		{"nor does a rest", drawing{meter: "2/4", step: "1/8", steps: ".xx.", groups: "5", before: 1, beamIn: true, beamOut: true}, [][]sheet.Beam{{begin}, {end}}, false, false},
		{"a first note that is not in the beam stays so", drawing{meter: "3/8", step: "1/8", steps: "xxx", groups: "1+2", beamOut: true}, [][]sheet.Beam{nil, {begin}, {on}}, false, true},
	} {
		all, in, out := beams(c.d)
		assert.Equal(t, c.is, all, c.why)
		assert.Equal(t, []bool{c.in, c.out}, []bool{in, out}, c.why)
	}
}

// A beam over exactly the tuplet takes the bracket's place.
func TestTupletBrackets(t *testing.T) {
	for _, c := range []struct {
		why string
		d   drawing
		is  []bool
	}{
		{"one beam each", drawing{meter: "2/4", step: "1/8 3:2", steps: "xxxxxx", groups: "3+3"}, []bool{false, false}},
		{"beams across", drawing{meter: "2/4", step: "1/8 3:2", steps: "xxxxxx", groups: "2+4"}, []bool{true, true}},
		{"a quarter in it", drawing{meter: "2/4", step: "1/8 3:2", steps: "x=xxxx", groups: "3+3"}, []bool{true, false}},
		{"lone groups beam by the tuplet", drawing{meter: "2/4", step: "1/8 3:2", steps: "xxxxxx", groups: "1+1+1+1+1+1"}, []bool{false, false}},
		{"one beam over two", drawing{meter: "1/4", step: "1/16 3:2", steps: "xxxxxx", groups: "6"}, []bool{true, true}},
		{"a beam that comes in", drawing{meter: "1/4", step: "1/8 3:2", steps: "xxx", groups: "4", before: 1, beamIn: true}, []bool{true}},
		{"a beam that goes on", drawing{meter: "1/4", step: "1/8 3:2", steps: "xxx", groups: "4", beamOut: true}, []bool{true}},
		{"no tuplet, no bracket", drawing{meter: "1/4", step: "1/8", steps: "xx", groups: "2"}, nil},
		{"a rest at its edge", drawing{meter: "2/4", step: "1/8 3:2", steps: "xxx.xx", groups: "3+3"}, []bool{false, true}},
	} {
		var got []bool
		for _, e := range c.d.measure(t).Voices[0].Events {
			switch e := e.(type) {
			case *sheet.Note:
				if e.TupletStart {
					got = append(got, e.Tuplet.Bracket)
				}
			case *sheet.Rest:
				if e.TupletStart {
					got = append(got, e.Tuplet.Bracket)
				}
			}
		}
		assert.Equal(t, c.is, got, c.why)
	}
}
