package play

import (
	"iter"
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// Meter is a time signature that holds from a moment on, with its groups added
// up: 3+2+2/8 is 7 eighths.
type Meter struct {
	At    beat.Time
	Count int
	Unit  int       // 8 for eighths
	Beat  beat.Span // how long one beat is; zero when its beats differ
}

// Meters walks the changes of meter, the first at 0. A pickup without a count-in has a
// meter of its length.
func (f *Performance) Meters() iter.Seq[Meter] {
	return func(yield func(Meter) bool) {
		var last Meter
		for bar, start := range f.bars() {
			sig := bar.Signature
			if bar.Skipped > 0 && f.Lead == 0 {
				sig = score.ShortSignature(f.piece.Grid.Span(bar.Length))
			}
			now := MeterOf(sig)
			if now == last {
				continue
			}
			last = now
			now.At = start
			if start == f.Lead {
				now.At = 0
			}
			if !yield(now) {
				return
			}
		}
	}
}

// MeterOf returns what a signature counts, at time 0.
func MeterOf(s score.Signature) Meter {
	var m Meter
	for _, t := range s.Terms {
		m.Unit = max(m.Unit, t.Unit)
	}
	whole, _ := s.Span().Times(int64(m.Unit)).IsWhole()
	m.Count = int(whole)
	beats := s.Beats()
	if !slices.ContainsFunc(beats, func(b beat.Span) bool { return b != beats[0] }) {
		m.Beat = beats[0]
	}
	return m
}

// bars walks the bars of all passes and where each begins.
func (f *Performance) bars() iter.Seq2[score.Bar, beat.Time] {
	return func(yield func(score.Bar, beat.Time) bool) {
		for _, pass := range f.Passes {
			for bar := range f.piece.Sections[pass.Section].Bars() {
				if at, ok := f.at(pass, bar.Start); ok && !yield(bar, at) {
					return
				}
			}
		}
	}
}

// Click is one stroke of the metronome.
type Click struct {
	At, Length beat.Time // a 32nd, or less where the beats are shorter
	Downbeat   bool
}

// Clicks walks the metronome's strokes on the beats: of the count-in, and of the whole
// piece if asked for.
func (f *Performance) Clicks(whole bool) iter.Seq[Click] {
	return func(yield func(Click) bool) {
		if f.Lead > 0 {
			first := f.piece.Sections[0].Bar(1).Signature
			for at := beat.Time(0); at < f.Lead; at += f.Grid.Must(first.Span()) {
				if !f.beats(first, at, at, f.Lead, yield) {
					return
				}
			}
		}
		if !whole {
			return
		}
		for bar, start := range f.bars() {
			if !f.beats(bar.Signature, start-f.fine*bar.Skipped, start, start+f.fine*bar.Length, yield) {
				return
			}
		}
	}
}

// beats clicks those of the beats of a bar at a moment that begin in [from, end).
func (f *Performance) beats(s score.Signature, at, from, end beat.Time, yield func(Click) bool) bool {
	for i, length := range s.Beats() {
		if at >= end {
			return true
		}
		lasts := f.Grid.Must(length)
		if at >= from && !yield(Click{at, min(lasts, max(1, beat.Time(f.Grid)/32)), i == 0}) {
			return false
		}
		at += lasts
	}
	return true
}
