package score

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A layer is slashes from bar 3 to bar 6 (bars of 8 eighths) and then what it was; a
// second word in between wins over that end; a player's other layer on the same staff
// keeps both as notes.
func TestWrittenAs(t *testing.T) {
	as := func(w Written) *Written { return &w }
	at := func(n int64) Place { return Place{Kind: AtBar, N: n} }
	to := func(n int64) *Place { p := at(n); return &p }
	guitar, bass := layer("Guitar", groups(3, 3, 2)), layer("Bass", groups(5, 3))
	guitar.Written = AsRepeats
	s := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 12}, guitar, bass)
	s.Plan = []PlanEntry{
		{At: at(3), Written: as(AsSlashes), To: to(6), For: []string{"Guitar"}},
		{At: at(9), Written: as(AsSlashes), To: to(12)},
		{At: at(10), Written: as(AsRhythm), For: []string{"Guitar"}},
	}
	settle(t, s)
	bars := func(l *Layer) (all []Written) {
		for b := range s.Bars() {
			all = append(all, s.WrittenAt(l, b.Start))
		}
		return all
	}
	n, r, sl, re := AsNotes, AsRhythm, AsSlashes, AsRepeats
	assert.Equal(t, []Written{re, re, sl, sl, sl, re, re, re, sl, r, r, r}, bars(guitar))
	assert.Equal(t, []Written{n, n, n, n, n, n, n, n, sl, sl, sl, n}, bars(bass))

	guitar.Player, bass.Player = "Strings", "Strings"
	p := settle(t, s)
	assert.Equal(t, []Written{n, n, n, n, n, n, n, n, sl, n, n, n}, bars(guitar))
	var said []string
	for _, w := range p.Warnings {
		said = append(said, w.Text)
	}
	assert.Equal(t, []string{
		"bar 1: Guitar is written as notes, for Bass of the same player is not written as repeats",
		"bar 10: Bass is written as notes, for Guitar of the same player is not written as slashes",
	}, said)
}
