package analysis

import (
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// Place is where in the meter a moment falls, as a player finds it.
type Place struct {
	Bar  int       // in the piece
	Beat int       // from 1
	Past beat.Time // after that beat
}

// OnBarline reports whether a bar starts there.
func (p Place) OnBarline() bool { return p.Beat == 1 && p.Past == 0 }

// OnBeat reports whether a beat starts there.
func (p Place) OnBeat() bool { return p.Past == 0 }

// Placer finds the places of moments. Those of one bar that come one after
// another cost next to nothing.
type Placer struct {
	s      *score.Section
	bar    score.Bar
	sig    score.Signature // that the starts are of
	starts []beat.Time     // of the bar's beats, from its start; nil before the first bar
	next   bool            // the starts may be those of another bar
}

// NewPlacer returns a placer for a settled section.
func NewPlacer(s *score.Section) *Placer { return &Placer{s: s} }

// At returns the place of section time t, which is not before the opening.
func (p *Placer) At(t beat.Time) Place {
	bar := p.barAt(t)
	if p.next {
		if p.starts == nil || !sameTerms(bar.Signature, p.sig) {
			p.sig, p.starts = bar.Signature, beatStarts(p.starts[:0], p.s.Grid, bar.Signature)
		}
		p.next = false
	}
	into := t - bar.Start + bar.Skipped
	k, on := slices.BinarySearch(p.starts, into)
	if !on {
		k--
	}
	return Place{Bar: bar.Number, Beat: k + 1, Past: into - p.starts[k]}
}

// barAt returns the bar that t falls in, good until the next call.
func (p *Placer) barAt(t beat.Time) *score.Bar {
	if t >= p.bar.End() || t < p.bar.Start {
		p.bar, p.next = p.s.BarAt(t), true
	}
	return &p.bar
}

// sameTerms is Signature.Equal without writing either out.
func sameTerms(a, b score.Signature) bool {
	return slices.EqualFunc(a.Terms, b.Terms, func(x, y score.Term) bool {
		return x.Unit == y.Unit && slices.Equal(x.Groups, y.Groups)
	})
}

// beatStarts appends where the beats of a signature start, from the barline.
func beatStarts(starts []beat.Time, grid beat.Grid, sig score.Signature) []beat.Time {
	at := beat.Time(0)
	for _, length := range sig.Beats() {
		starts = append(starts, at)
		at += grid.Must(length)
	}
	return starts
}
