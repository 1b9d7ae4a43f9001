package systems

import (
	"iter"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

const grid = 32 // ticks to a whole note

// quarters is a bar of four quarters: 290 each, and the edges of 170, are 1,330.
func quarters() *sheet.Measure {
	v := sheet.Voice{Staff: 1, Number: 1}
	for _, at := range []beat.Time{0, 8, 16, 24} {
		v.Events = append(v.Events, &sheet.Note{Start: at, Length: 8, Heads: []sheet.Head{{}}})
	}
	return &sheet.Measure{Signature: score.PlainSignature(4, 4), Length: grid, Voices: []sheet.Voice{v}}
}

// begun lists the bars with which systems begin where a line has room for 4,000, three
// bars of quarters.
func begun(bars []*sheet.Bar, beside func() (*sheet.Bar, bool)) (all []int) {
	for s := range Room(4000).Of(grid, slices.Values(bars), beside) {
		all = append(all, s.Bar)
	}
	return all
}

// played and silent are bars of quarters and of rest.
func played(n int) (bars []*sheet.Bar) {
	for range n {
		bars = append(bars, &sheet.Bar{Measure: quarters()})
	}
	return bars
}

func silent(n int) []*sheet.Bar {
	bars := played(n)
	for _, b := range bars {
		b.Empty = true
	}
	return bars
}

func TestOf(t *testing.T) {
	assert.Equal(t, []int{4}, begun(played(6), nil), "twice 3,990")

	meter := played(6)
	meter[0].NewMeter = true
	assert.Equal(t, []int{3, 5}, begun(meter, nil), "4/4 takes 110 and 156: 8,246 are more than two lines hold")

	rest := silent(4)
	rest[0].Rest = 4
	assert.Equal(t, []int{3, 9}, begun(slices.Concat(played(4), rest, played(2)), nil),
		"four bars and a rest of 700, 6,020, are cut in two; a line ends with the rest: 3,360")

	section := played(6)
	section[4].Section, section[5].Section = 1, 1
	assert.Equal(t, []int{3, 5}, begun(section, nil))

	divided := played(5)
	divided[2].Divides = true
	assert.Equal(t, []int{3}, begun(divided, nil))
}

// Where the part is silent, bars are as wide as what is above them.
func TestOfWithAPartner(t *testing.T) {
	assert.Equal(t, []int(nil), begun(silent(5), nil), "five rests of 700 are 3,500")
	next, stop := iter.Pull(slices.Values(played(6)))
	defer stop()
	assert.Equal(t, []int{4}, begun(silent(6), next), "twice 3,990")
}
