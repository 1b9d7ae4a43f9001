package layout

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/edit"
	"tieover/layout/sheet"
)

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

// A system of the score has room for five bars (see systems.Room): a period of six is
// cut in two.
func TestSystemsOfTheScore(t *testing.T) {
	assert.Equal(t, []int{4, 7, 10}, breaksOf(&laid(t, Options{}, lockRound).Parts[0]))
	assert.Equal(t, []int{7}, breaksOf(&laid(t, Options{Breaks: BreakRealign}, lockRound).Parts[0]))
	assert.Empty(t, breaksOf(&laid(t, Options{Breaks: BreakNone}, lockRound).Parts[0]))
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
		first, problems := edit.Excerpt(s, 1, 5, nil)
		require.NoError(t, problems.Err())
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
