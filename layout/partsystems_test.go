package layout

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
)

// unitSystems reads units, each the bars or gathered bars it stands for: a
// number is a bar of so many signs, r12 a gathered rest of twelve bars; an
// | stands before a realignment, || before a section. It returns how many units
// each system has.
func unitSystems(line ...any) []int {
	var units []unit
	var realigned, section bool
	for _, v := range line {
		u := unit{bar: len(units) + 1, width: 4, realigned: realigned, section: section || len(units) == 0}
		switch v := v.(type) {
		case string:
			realigned, section = v == "|", v == "||"
			continue
		case rest:
			u.silent = int(v)
		case int:
			u.width = v
		}
		realigned, section = false, false
		units = append(units, u)
	}
	var sizes []int
	last := 1
	for s := range systemsOf(slices.Values(units), 32) {
		sizes = append(sizes, s.bar-last)
		last = s.bar
	}
	return append(sizes, len(units)+1-last)
}

type rest int

func bars(n, signs int) []any {
	var all []any
	for range n {
		all = append(all, signs)
	}
	return all
}

// Room is for 32 signs; the sums are worked out beside each case.
func TestSystemsOfAPart(t *testing.T) {
	line := func(parts ...any) (all []any) {
		for _, p := range parts {
			if many, ok := p.([]any); ok {
				all = append(all, many...)
			} else {
				all = append(all, p)
			}
		}
		return all
	}
	for _, c := range []struct {
		name string
		line []any
		want []int
	}{
		{"8 bars of 4 signs are 32", bars(8, 4), []int{8}},
		{"9 bars of 4 are 36: two about equal systems, never 8 and a lone bar", bars(9, 4), []int{4, 5}},
		{"20 bars of 4 are 80: three of about 27", bars(20, 4), []int{7, 6, 7}},
		{"three bars of 11 are 33, squeezed into a line and not cut into two and one: 34 can be", bars(3, 11), []int{3}},
		{"three bars of 16 are 48: one has a line of its own", bars(3, 16), []int{1, 2}},
		{"two bars of 20 cannot share a line", bars(2, 20), []int{1, 1}},
		{"short periods share: 3+3 bars of 4 are 24, a third would be 36",
			line(bars(3, 4), "|", bars(3, 4), "|", bars(3, 4), "|", bars(3, 4)), []int{6, 6}},
		{"a realignment starts a system though the line has room for one bar more",
			line(bars(5, 5), "|", bars(6, 5)), []int{5, 6}},
		{"a section starts one, short periods before it or not",
			line(bars(3, 4), "||", bars(3, 4)), []int{3, 3}},
		{"the line ends with the rest, not a bar later: 4+4+4+4+4 are 20, with two bars more 28",
			line(bars(4, 4), rest(9), bars(7, 4)), []int{5, 7}},
		{"pieces are cut up to the end of the rest: 9 bars of 5 and the rest are 49, two of about 25",
			line(bars(9, 5), rest(12), bars(4, 5)), []int{5, 5, 4}},
		{"a rest at once is no line of its own", line(rest(8), rest(4), 4, bars(12, 5), rest(7), rest(8)), []int{6, 5, 6}},
		{"a cue bar before a realignment stays with the rest it ends",
			line(bars(4, 5), rest(7), 4, "|", bars(5, 5)), []int{6, 5}},
		{"rests between realignments share a line", line(rest(8), "|", rest(8), "|", rest(8), "|", bars(4, 4)), []int{7}},
		{"a section that is one rest joins the next", line(bars(4, 6), "||", rest(30), "||", bars(4, 6)), []int{4, 5}},
	} {
		assert.Equal(t, c.want, unitSystems(c.line...), c.name)
	}
}

// However long the part, systems are found while it is read, and each holds two
// bars at least and no more than it has room for.
func TestSystemsOfALongPart(t *testing.T) {
	sizes := unitSystems(bars(10_000, 7)...) // four bars of 7 are 28, five are 35
	sum := 0
	for _, n := range sizes {
		assert.GreaterOrEqual(t, n, 2)
		assert.LessOrEqual(t, n, 4)
		sum += n
	}
	assert.Equal(t, 10_000, sum)
	assert.Len(t, sizes, 2500)
}

const longReach = `title: Long Reach
section: L
meter: 4/4
length: 40 bars
layers:
  - {name: Reeds, instrument: oboe, groups: 3+3+2, pitches: A4 C5 E5, strike: all}
  - {name: Ferry, instrument: bassoon, groups: 3+2+2+3, pitches: D2 F2 A2, enters: bar 14, leaves: bar 26}
plan:
  - {at: bar 9, text: wind rises}
  - {at: bar 33, mark: Bridge}
`

func breaksOf(p *sheet.Part) (systems []int) {
	for b := range p.Bars() {
		if b.Break != sheet.NoBreak {
			systems = append(systems, b.Number)
		}
	}
	return systems
}

// The ferry rests for 8, 4 and one bar, plays 12 bars of four signs, and rests
// for 7 and 8: 17 units of four, 68, in three systems of about 23. The reeds
// play eight eighths a bar, 1,970 of a line's 10,778: five bars fit.
func TestSystemsAreChosenForThePart(t *testing.T) {
	ferry := single(t, Options{}, 1, longReach)
	assert.Equal(t, []int{17, 22}, breaksOf(&ferry.Parts[0]))
	assert.Equal(t, []string{"1 8", "9 4", "26 7", "33 8"}, restsOf(&ferry.Parts[0]), "no rest is cut by a system")
	reeds := single(t, Options{}, 0, longReach)
	assert.Equal(t, []int{6, 11, 16, 21, 26, 31, 36}, breaksOf(&reeds.Parts[0]))
	assert.Empty(t, breaksOf(&single(t, Options{Breaks: BreakNone}, 1, longReach).Parts[0]))
}

func restsOf(p *sheet.Part) (rests []string) {
	for b := range p.Bars() {
		if b.Rest > 0 {
			rests = append(rests, fmt.Sprint(b.Number, " ", b.Rest))
		}
	}
	return rests
}

// With a partner above, both parts of the file break at the same bars, and each
// line has room for what the partner plays: eight eighths a bar, five bars.
func TestAPartnerBreaksWithThePart(t *testing.T) {
	s := single(t, Options{Partner: "Reeds"}, 1, longReach)
	assert.Equal(t, []int{6, 11, 16, 21, 26, 31, 36}, breaksOf(&s.Parts[1]))
	assert.Equal(t, breaksOf(&s.Parts[0]), breaksOf(&s.Parts[1]))
}

// Room for two systems: the third begins a page.
func TestPagesOfAPart(t *testing.T) {
	ferry := single(t, Options{Page: sheet.PageRoom{First: 8, Others: 8}}, 1, longReach)
	breaks := map[int]sheet.Break{}
	for b := range ferry.Parts[0].Bars() {
		if b.Break != sheet.NoBreak {
			breaks[b.Number] = b.Break
		}
	}
	assert.Equal(t, map[int]sheet.Break{17: sheet.NewSystem, 22: sheet.NewPage}, breaks)
}

// A new signature takes room: bars of three and of five eighths, 845 and 1,295,
// count as an eighth of a line each, 1,347 of 10,778, so eight fit. With their
// signatures they are 1,347 and 1,561, four of each 11,632: two systems.
func TestSignaturesTakeRoom(t *testing.T) {
	plain := single(t, Options{}, 0, one("4/8", "1/8", "8", "groups: 2+2, strike: all"))
	assert.Empty(t, breaksOf(&plain.Parts[0]))
	changing := single(t, Options{}, 0, one("[3/8, 5/8]", "1/8", "8", "groups: 3+5, strike: all"))
	assert.Equal(t, []int{5}, breaksOf(&changing.Parts[0]))
}

// What a part knows of its breaks is what its bars have, also where bars are cut
// out of it.
func TestBreaksAreKnown(t *testing.T) {
	for _, o := range []Options{{}, {Breaks: BreakNone}, {Page: sheet.PageRoom{First: 8, Others: 8}}} {
		s := single(t, o, 1, longReach)
		first := excerpted(t, s, 1, 5)
		for _, p := range []*sheet.Part{&s.Parts[0], &first.Parts[0]} {
			var systems, pages bool
			for b := range p.Bars() {
				systems, pages = systems || b.Break == sheet.NewSystem, pages || b.Break == sheet.NewPage
			}
			gotSystems, gotPages := p.Breaks()
			assert.Equal(t, []bool{systems, pages}, []bool{gotSystems, gotPages}, o)
		}
	}
}
