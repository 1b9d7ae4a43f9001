package bar

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

func (d drawing) packer(t *testing.T) *packer {
	t.Helper()
	in := d.input(t)
	w := Writer{NoteValues: NoteValues{Grid: testGrid}}
	return w.packer(in, &in.Voices[0], piecesOf(&in.Voices[0], in.MetricGrid.Length))
}

func moments(t *testing.T, text string) (list []beat.Time) {
	t.Helper()
	for _, s := range strings.Fields(text) {
		list = append(list, testGrid.Must(fraction(t, s)))
	}
	return list
}

// Sounds and silences tile the bar, without gaps and without empty pieces.
func TestPieces(t *testing.T) {
	for steps, want := range map[string]string{
		"x=x=": "0-2 2-4", "x===": "0-4", "..x.": "r0-2 2-3 r3-4", ".x.x": "r0-1 1-2 r2-3 3-4", "....": "r0-4", "xxxx": "0-1 1-2 2-3 3-4",
	} {
		d := drawing{meter: "4/4", step: "1/4", steps: steps}
		var got []string
		for _, pc := range piecesOf(&d.input(t).Voices[0], testGrid.Must(beat.Of(1, 1))) {
			text := fmt.Sprintf("%d-%d", 4*pc.from/beat.Time(testGrid), 4*pc.to/beat.Time(testGrid))
			if pc.segment < 0 {
				text = "r" + text
			}
			got = append(got, text)
		}
		assert.Equal(t, want, strings.Join(got, " "))
	}
}

// Into how many parts containers may be divided: by the pulse's own number, or by
// what the moments need, below sixteen.
func TestRatios(t *testing.T) {
	for _, c := range []struct{ pulse, inside, is string }{
		{"1/8", "", "[]"},
		{"1/8", "1/4 3/8", "[]"},
		{"1/8", "1/12 1/4", "[3]"},
		{"1/8", "1/12 1/6 5/12", "[3]"},
		{"1/8", "1/20 1/12", "[3 5 15]"},
		{"1/8", "1/12 1/60", "[3 15]"},
		{"1/8", "1/28 1/12", "[3 7]"},
		{"1/8", "1/36", "[9]"},
		{"1/8", "1/84", "[]"}, // twenty-one
		{"1/8 3:2", "1/20", "[3]"},
		{"1/16 6:4", "1/12", "[6]"},
		{"1/8 4:3", "1/20", "[5]"}, // powers of two are dotted values elsewhere
	} {
		p := packer{NoteValues: NoteValues{Grid: testGrid}, pulse: pulseOf(t, c.pulse), inside: moments(t, c.inside)}
		assert.Equal(t, c.is, fmt.Sprint(p.ratios()), "%s of %s", c.inside, c.pulse)
	}
}

// Where a container may stand: its own length anywhere, a longer one on its own
// grid and not over a strong division of the bar, but as the whole bar.
func TestFits(t *testing.T) {
	for _, c := range []struct {
		meter, pulse, from, to string
		fits                   bool
	}{
		{"4/4", "1/8 3:2", "0/1", "1/4", true},
		{"4/4", "1/8 3:2", "1/8", "3/8", true},
		{"4/4", "1/8 3:2", "3/16", "5/16", true},
		{"4/4", "1/8 3:2", "0/1", "1/2", true},
		{"4/4", "1/8 3:2", "1/2", "1/1", true},
		{"4/4", "1/8 3:2", "1/4", "3/4", false}, // off its grid
		{"4/4", "1/8 3:2", "0/1", "1/1", true},
		{"3/4", "1/8 3:2", "1/4", "3/4", false},
		{"3/4", "1/8 3:2", "0/1", "1/2", true}, // no strong division there
		{"6/4", "1/8 3:2", "1/2", "1/1", true},
		{"3+3/8", "1/16 3:2", "0/1", "1/4", true},
		{"3+3/8", "1/16 3:2", "1/4", "1/2", false}, // over the second group's start
		{"4+4/8", "1/16 3:2", "1/4", "1/2", true},
		{"4+4/8", "1/16 3:2", "1/2", "3/4", true},
	} {
		p := drawing{meter: c.meter, step: "1/4", pulse: c.pulse, steps: "x"}.packer(t)
		assert.Equal(t, c.fits, p.fits(testGrid.Must(fraction(t, c.from)), testGrid.Must(fraction(t, c.to))), "%s: %s to %s", c.meter, c.from, c.to)
	}
}

// Whether so many parts hold what stands in a stretch of a 4/4 bar of triplets,
// whose own container is a quarter.
func TestTupletAt(t *testing.T) {
	for _, c := range []struct {
		why, from, to string
		parts         int
		inside        string
		ok            bool
	}{
		{"thirds", "0/1", "1/4", 3, "1/12 1/6", true},
		{"in the second beat", "1/4", "1/2", 3, "1/3 5/12", true},
		{"off the beat", "1/128", "33/128", 3, "35/384", true}, // 1/128 and 1/12
		{"halves of thirds", "0/1", "1/4", 3, "1/24", true},
		{"eighths of thirds", "0/1", "1/4", 3, "1/96", true},
		{"sixteenths of thirds", "0/1", "1/4", 3, "1/192", false},
		{"no halves where containers are joined", "0/1", "1/2", 3, "1/12", false},
		{"but thirds", "0/1", "1/2", 3, "1/6", true},
		{"fifths are no thirds", "0/1", "1/4", 3, "1/20", false},
		{"nor fifteenths", "0/1", "1/4", 3, "1/60", false},
		{"one of both", "0/1", "1/4", 3, "1/12 1/5", false},
		{"nothing inside", "0/1", "1/4", 3, "", false},
		{"what stands at its ends is not inside", "1/4", "1/2", 3, "1/4 1/2 7/12", false},
		{"nor at the ends of one in four", "0/1", "3/8", 4, "3/8", false},
		{"four in three need no odd moment", "0/1", "3/8", 4, "3/32", true},
		{"halves alone need no tuplet", "0/1", "1/4", 3, "1/8", false},
		{"five eighths are no container", "0/1", "5/8", 3, "5/24", false},
		{"three in three are none", "0/1", "3/8", 3, "1/24", false},
		{"no parts below a 128th", "0/1", "1/128", 3, "1/384", false},
	} {
		p := drawing{meter: "4/4", step: "1/4", pulse: "1/8 3:2", steps: "x==="}.packer(t)
		p.inside = moments(t, c.inside)
		if c.to == "3/8" {
			p.length = testGrid.Must(beat.Of(3, 8))
		}
		_, _, ok := p.tupletAt(testGrid.Must(fraction(t, c.from)), testGrid.Must(fraction(t, c.to)), c.parts)
		assert.Equal(t, c.ok, ok, c.why)
	}
	// Fifteenths on a grid without halves of them.
	p := &packer{NoteValues: NoteValues{Grid: 60}, length: 15, inside: []beat.Time{1}}
	_, _, ok := p.tupletAt(0, 15, 3)
	assert.False(t, ok)
	// A doubly dotted length is no container, though it has a sign.
	p = &packer{NoteValues: NoteValues{Grid: 48, Double: true}, length: 21, inside: []beat.Time{7}}
	_, _, ok = p.tupletAt(0, 21, 3)
	assert.False(t, ok)
}

// What containers cost, counted by hand: ties at their end, signs, halves, off
// their grid, tuplets, joined.
func TestCosts(t *testing.T) {
	thirds := drawing{meter: "4/4", step: "1/8 3:2", steps: "x=xx=xx===.."}.packer(t)
	for _, c := range []struct {
		from, to string
		is       cost
	}{
		{"0/1", "1/4", cost{signs: 2, tuplets: 1}},
		{"1/4", "1/2", cost{signs: 2, tuplets: 1}},
		{"1/2", "3/4", cost{ties: 1, signs: 1, tuplets: 1}},
		{"3/4", "1/1", cost{signs: 3, tuplets: 1}}, // a rest of two off its grid is two
		{"0/1", "1/8", cost{ties: 1, signs: 1, halves: 1, tuplets: 1}},
		{"1/8", "3/8", cost{ties: 1, signs: 3, astray: 1, tuplets: 1}},
		{"0/1", "1/2", cost{signs: 4, tuplets: 1, joins: 1}},
	} {
		got, ok := thirds.tupletCost(container{testGrid.Must(fraction(t, c.from)), testGrid.Must(fraction(t, c.to)), &sheet.Tuplet{Actual: 3, Normal: 2}})
		assert.True(t, ok)
		assert.Equal(t, c.is, got, "%s to %s", c.from, c.to)
	}
	plain := drawing{meter: "4/4", step: "1/8", steps: "x====xx."}.packer(t)
	for _, c := range []struct {
		from, to string
		is       cost
	}{
		{"0/1", "1/1", cost{signs: 5}}, // five eighths are two signs
		{"0/1", "1/2", cost{ties: 1, signs: 1}},
		{"1/2", "1/1", cost{signs: 4}},
		{"1/4", "3/4", cost{signs: 2}},
		{"5/8", "1/1", cost{signs: 3}},
		{"7/8", "1/1", cost{signs: 1}},
	} {
		got, ok := plain.plainCost(testGrid.Must(fraction(t, c.from)), testGrid.Must(fraction(t, c.to)))
		assert.True(t, ok)
		assert.Equal(t, c.is, got, "%s to %s", c.from, c.to)
	}
	_, ok := thirds.plainCost(0, testGrid.Must(beat.Of(1, 4)))
	assert.False(t, ok, "a third inside")
}

// Ties weigh most, joins least; each is added up.
func TestCostOrder(t *testing.T) {
	all := []cost{{ties: 1}, {signs: 1}, {halves: 1}, {astray: 1}, {tuplets: 1}, {joins: 1}}
	for i, a := range all {
		assert.False(t, a.less(a))
		for j, b := range all {
			assert.Equal(t, i > j, a.less(b), "%+v before %+v", a, b)
		}
	}
	assert.Equal(t, cost{11, 22, 33, 44, 55, 66}, cost{1, 2, 3, 4, 5, 6}.plus(cost{10, 20, 30, 40, 50, 60}))
}
