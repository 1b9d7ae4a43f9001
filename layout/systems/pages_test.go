package systems

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
)

// turns says how many systems each page has; after[n] empty bars end the nth
// system, counted from 1.
func turns(room sheet.PageRoom, systems int, after map[int]int) []int {
	var all []System
	for n := 2; n <= systems; n++ {
		all = append(all, System{Bar: n, Break: sheet.NewSystem, rested: after[n-1]})
	}
	var pages []int
	last := 1
	for s := range turned(slices.Values(all), room) {
		if s.Break == sheet.NewPage {
			pages = append(pages, s.Bar-last)
			last = s.Bar
		}
	}
	return append(pages, systems+1-last)
}

func TestPagesEndWithRests(t *testing.T) {
	room := sheet.PageRoom{First: 6, Others: 8}
	for _, c := range []struct {
		name    string
		systems int
		after   map[int]int
		want    []int
	}{
		{"all on the first page", 6, map[int]int{4: 12}, []int{6}},
		{"no rests: each page is filled", 24, nil, []int{6, 8, 8, 2}},
		{"the longest rest of the second half", 12, map[int]int{2: 40, 4: 12, 5: 3}, []int{4, 8}},
		{"the last of several as long", 12, map[int]int{4: 5, 5: 5}, []int{5, 7}},
		{"a rest in the first half would leave the page half empty", 10, map[int]int{2: 20, 3: 20}, []int{6, 4}},
		{"one bar is too short to turn in", 10, map[int]int{5: 1}, []int{6, 4}},
		{"pages count from where the last one ended", 20, map[int]int{4: 9, 11: 9}, []int{4, 7, 8, 1}},
	} {
		assert.Equal(t, c.want, turns(room, c.systems, c.after), c.name)
	}
}

// A staff takes three and a half staff heights, a further one two and a half: in
// 40 are eleven systems of one staff (38.5) and six of two (36).
func TestRoomForSystems(t *testing.T) {
	assert.Equal(t, sheet.PageRoom{First: 10, Others: 11}, inSystems(sheet.PageRoom{First: 35, Others: 40}, 1))
	assert.Equal(t, sheet.PageRoom{First: 5, Others: 6}, inSystems(sheet.PageRoom{First: 35, Others: 40}, 2))
	assert.Equal(t, sheet.PageRoom{First: 2, Others: 2}, inSystems(sheet.PageRoom{First: 3, Others: 5}, 3), "a page has two at least")
}
