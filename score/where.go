package score

import (
	"fmt"

	"tieover/score/beat"
)

// Where is a moment as a player finds it.
type Where struct {
	Bar  int       // in the piece
	Beat int       // from 1, as Signature.Beats counts
	Past beat.Span // after that beat; zero on it
	Half bool      // exactly half of that beat is past
}

// Where says which bar and beat section time t falls on.
func (s *Section) Where(t beat.Time) Where {
	bar := s.BarAt(t)
	w := Where{Bar: bar.Number}
	into := s.Grid.Span(t - bar.Start + bar.Skipped)
	for _, length := range bar.Signature.Beats() {
		w.Beat++
		if into.Cmp(length) < 0 {
			w.Past, w.Half = into, into.Times(2) == length
			return w
		}
		into = into.Sub(length)
	}
	w.Past = into
	return w
}

// String writes "bar 5 beat 2", "bar 5 beat 2½" or "bar 5 beat 2 +1/16".
func (w Where) String() string { return w.words("½") }

// ASCII is String with "1/2" for the half sign.
func (w Where) ASCII() string { return w.words(" 1/2") }

func (w Where) words(half string) string {
	at := fmt.Sprintf("bar %d beat %d", w.Bar, w.Beat)
	switch {
	case w.Half:
		return at + half
	case w.Past.Sign() > 0:
		return at + " +" + w.Past.String()
	}
	return at
}
