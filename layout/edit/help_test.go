package edit_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tieover/layout"
	"tieover/layout/sheet"
	"tieover/score/spec/spectest"
)

// 10 against 12 eighths meet after 60: six bars of 5/4.
const lockRound = `title: Lock Keeper's Round
section: B
meter: 5/4
length: 2 realignments
layers:
  - {name: Marimba, short: Mar., instrument: marimba, groups: 3+2+2+3, pitches: E5 B4 G4 D5}
  - {name: Vibraphone, short: Vib., instrument: vibraphone, groups: 3+3+2+2+2, pitches: A4 C5 D5 G4 E4}
`

// laid lays the score of a piece, and single one player's part.
func laid(t *testing.T, o layout.Options, texts ...string) *sheet.Sheet {
	t.Helper()
	s, problems := layout.Lay(spectest.Read(t, texts...), o)
	require.NoError(t, problems.Err())
	return s
}

func single(t *testing.T, o layout.Options, player int, texts ...string) *sheet.Sheet {
	t.Helper()
	s, problems := layout.LayPart(spectest.Read(t, texts...), o, player)
	require.NoError(t, problems.Err())
	return s
}

// rhythm returns the bars of a sheet's first part as text, with "|" between.
func rhythm(s *sheet.Sheet) string {
	var bars []string
	for b := range s.Parts[0].Bars() {
		bars = append(bars, sheet.Rhythm(&b.Measure.Voices[0]))
	}
	return strings.Join(bars, " | ")
}

// marksOf lists the marks of one kind of a part as "bar.event text", with + for one
// inside the event.
func marksOf(p *sheet.Part, kind sheet.MarkKind) (all []string) {
	for b := range p.Bars() {
		for _, m := range b.Marks {
			if m.Kind == kind {
				text := fmt.Sprintf("%d.%d", b.Number, m.Before)
				if m.Offset > 0 {
					text += "+"
				}
				all = append(all, strings.TrimSpace(text+" "+m.Text))
			}
		}
	}
	return all
}

// breaksOf lists the bars with which systems begin.
func breaksOf(p *sheet.Part) (systems []int) {
	for b := range p.Bars() {
		if b.Break != sheet.NoBreak {
			systems = append(systems, b.Number)
		}
	}
	return systems
}
