package engraving

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/engraving/pen"
	"tieover/layout"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/spec/spectest"
)

// frets: tablature has a number for each head that is struck on its string, and for each
// grace note; the strings are broken there, and nothing else but signs for equal bars
// stands on them.
func frets(sys *System, fault report) {
	l := sys.line
	for i := range l.Staves {
		st := &l.Staves[i]
		if !st.Tab {
			continue
		}
		want := 0
		met := map[string]bool{} // of several layers
		for k := range l.spots {
			s := &l.spots[k]
			if s.Part != st.Part || s.Note == nil || s.Note.TieIn || s.Voice.Small || s.Voice.As != score.AsNotes {
				continue
			}
			for g, n := range append([]*sheet.Note{s.Note}, s.Note.Graces...) {
				for _, h := range n.Heads {
					if at := fmt.Sprint(s.Bar, s.Note.Start, g, h.Stop); !met[at] {
						met[at] = true
						want++
					}
				}
			}
		}
		got := 0
		for _, b := range sys.boxes {
			if b.Staff != i || b.What == "repeat" {
				continue
			}
			if got++; b.What != "fret" {
				fault("%s in tablature", b.What)
			}
		}
		if got != want || len(st.Gaps) != want {
			fault("%d numbers and %d gaps for %d heads", got, len(st.Gaps), want)
		}
	}
}

// Six lines one and a half spaces apart: string 3 is 75 above the middle, string 4 as far
// below, string 2 at 225. The word TAB stands at the line's start, and neither key, time
// nor rests.
func TestTablature(t *testing.T) {
	p := spectest.Read(t, `title: Weir
meter: 4/4
length: 2 bars
key: D major
layers:
  - {name: Guitar, instrument: guitar, tab: yes, groups: 3+rest 2+3, pitches: E3 B3+D4}
`)
	s, problems := layout.LayPart(p, layout.Options{Edition: sheet.Play}, 0)
	require.NoError(t, problems.Err())
	assert.Empty(t, faults(s, Options{}))
	eachSystem(s, Options{}, func(sys *System, _ bool) {
		l := sys.line
		require.Len(t, l.Staves, 2)
		assert.Equal(t, pen.Unit(375), l.Staves[1].Edge())
		var got []string
		for _, b := range sys.boxes {
			if b.What == "fret" {
				got = append(got, fmt.Sprint((b.Y0+b.Y1)/2))
			}
		}
		// E3 is at 4/2. B3 and D4 are at 3/4 and 2/3, for 2/0 leaves D4 no string in reach.
		assert.Equal(t, []string{"75", "-75", "-225", "75", "-75", "-225"}, got)
		for _, letter := range []string{"T", "A", "B"} {
			assert.Equal(t, 1, strings.Count(string(sys.Body), ">"+letter+"</text>"), letter)
		}
		assert.Equal(t, 2, strings.Count(string(sys.Body), ">2</text>"))
		assert.Equal(t, 2, strings.Count(string(sys.Body), ">4</text>"), "no signature in its digits")
	})
}

// A bracket joins the staves, and barlines go through both.
func TestTablatureIsJoined(t *testing.T) {
	p := spectest.Read(t, `title: Weir
meter: 4/4
length: 2 bars
layers: [{name: Bass, instrument: bass guitar, tab: yes, groups: 4+4, pitches: E2 G2}]
`)
	s, problems := layout.LayPart(p, layout.Options{}, 0)
	require.NoError(t, problems.Err())
	eachSystem(s, Options{}, func(sys *System, _ bool) {
		l := sys.line
		assert.Equal(t, []stretch{{0, 1, l.Staves[0].Y - 200, l.Staves[1].Y + 225}}, l.stretches())
	})
}

// A fret that two layers strike together has one number: four of A, two of them B's too.
func TestTablatureOfOneStroke(t *testing.T) {
	p := spectest.Read(t, `title: Weir
meter: 4/4
length: 1 bar
layers:
  - {name: A, player: Reed, instrument: guitar, tab: yes, groups: 2x4, pitches: E4}
  - {name: B, player: Reed, instrument: guitar, groups: 4+4, pitches: E4}
`)
	s, problems := layout.LayPart(p, layout.Options{}, 0)
	require.NoError(t, problems.Err())
	assert.Empty(t, faults(s, Options{}))
	eachSystem(s, Options{}, func(sys *System, _ bool) {
		numbers := 0
		for _, b := range sys.boxes {
			if b.What == "fret" {
				numbers++
			}
		}
		assert.Equal(t, 4, numbers)
	})
}

// An alternative tuning stands under the player's name.
func TestTuningIsDrawn(t *testing.T) {
	for tuning, want := range map[string]bool{"D2 A2 D3 G3 B3 E4": true, "E2 A2 D3 G3 B3 E4": false} {
		p := spectest.Read(t, `title: Weir
meter: 4/4
length: 1 bar
layers: [{name: Guitar, instrument: guitar, tab: yes, tuning: `+tuning+`, groups: 4+4, pitches: E3}]
`)
		s, problems := layout.LayPart(p, layout.Options{}, 0)
		require.NoError(t, problems.Err())
		var page strings.Builder
		require.NoError(t, WriteHTML(&page, s, DefaultPaper, nil))
		assert.Equal(t, want, strings.Contains(page.String(), ">Tuning: D A D G B E</text>"), tuning)
	}
}
