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
		"bar 1: Guitar is written as notes because Bass of the same player is not written as repeats",
		"bar 10: Bass is written as notes because Guitar of the same player is not written as slashes",
	}, said)
}

// Of twelve bars of 8 eighths the first layer of a player is there in bars 1-4, the
// other from the middle of bar 10 on: they share no bar, so each is written as it says.
// Where they share bar 4, in the middle of which one leaves and the other enters, that
// bar is notes, and the one that asks for slashes is told so. One that is not there is
// written as whoever is.
func TestWrittenAsBesideThoseThatAreThere(t *testing.T) {
	at := func(n int64, beat int) *Place { return &Place{Kind: AtBar, N: n, Beat: beat} }
	n, sl := AsNotes, AsSlashes
	for _, c := range []struct {
		leaves, enters *Place
		want           []Written
		said           []string
	}{
		{at(5, 0), at(10, 3), []Written{sl, sl, sl, sl, sl, sl, sl, sl, sl, n, n, n}, nil},
		{at(4, 3), at(4, 3), []Written{sl, sl, sl, n, n, n, n, n, n, n, n, n}, []string{"bar 4: First is written as notes because Second of the same player is not written as slashes"}},
	} {
		first, second := layer("First", groups(3, 3, 2)), layer("Second", groups(5, 3))
		first.Player, second.Player, first.Written = "Reed", "Reed", AsSlashes
		first.LeaveAt, second.EnterAt = c.leaves, c.enters
		s := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 12}, first, second)
		p := settle(t, s)
		var got []Written
		for b := range s.Bars() {
			got = append(got, s.WrittenAt(first, b.Start))
		}
		assert.Equal(t, c.want, got)
		var said []string
		for _, w := range p.Warnings {
			said = append(said, w.Text)
		}
		assert.Equal(t, c.said, said)
	}
}
