package analysis

import (
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// Alike is a pair of layers that may be taken for each other: they share sounds
// or a stretch of register, and one moved in time strikes much as the other.
type Alike struct {
	A, B int // A < B

	Shared   int  // sounds that both have
	Register bool // their pitches lie in one register, though none is the same

	// Over all shifts, B's attacks moved by Shift fall on most of A's: Matches of
	// AttacksA and AttacksB. Over what was compared see Window.
	Shift              beat.Time // early is negative
	Matches            int
	AttacksA, AttacksB int
	Cyclic             bool // a whole period was compared, going round
	Window             beat.Time

	// What is the same in both, and could set them apart.
	Side, Touch, Instrument bool
}

// Likeness is how much of both the matches are: twice the matches over the
// attacks of both, in percent rounded down (Dice's coefficient).
func (a Alike) Likeness() int { return 200 * a.Matches / (a.AttacksA + a.AttacksB) }

// Easily reports whether they are easily confused: three quarters of the attacks
// agree, and no fewer than three (own choice).
func (a Alike) Easily() bool { return a.Likeness() >= 75 && a.Matches >= 3 }

// Bounds of the comparison: pairs of a section, attacks of a layer, and how far
// in degrees two sides are apart when nobody confuses them (own choice).
const (
	mostAlike  = 120
	mostOnsets = 256
	farApart   = 60
)

// alikeOf compares every two layers that share sounds or a register, as far as
// mostAlike goes.
func alikeOf(s *score.Section) []Alike {
	var all []Alike
	sounds := make([][]score.Tone, len(s.Layers))
	for i, l := range s.Layers {
		sounds[i] = soundsOf(l)
	}
	for a := range s.Layers {
		for b := a + 1; b < len(s.Layers) && len(all) < mostAlike; b++ {
			if alike, ok := alikeIn(s, a, b, sounds); ok {
				all = append(all, alike)
			}
		}
	}
	return all
}

// alikeIn compares two layers; ok is false where they share nothing or are
// never heard in the same stretch.
func alikeIn(s *score.Section, a, b int, sounds [][]score.Tone) (alike Alike, ok bool) {
	one, other := s.Layers[a], s.Layers[b]
	alike = Alike{A: a, B: b}
	if one.Instrument.IsUnpitched() != other.Instrument.IsUnpitched() ||
		one.Instrument.IsUnpitched() && one.Instrument != other.Instrument {
		return alike, false
	}
	for _, t := range sounds[a] {
		if slices.Contains(sounds[b], t) {
			alike.Shared++
		}
	}
	alike.Register = overlap(sounds[a], sounds[b])
	if alike.Shared == 0 && !alike.Register {
		return alike, false
	}
	alike.compare(s)
	alike.Side = one.Pan == nil || other.Pan == nil || max(*one.Pan-*other.Pan, *other.Pan-*one.Pan) < farApart
	alike.Touch = slices.Equal(one.Touches, other.Touches)
	alike.Instrument = one.Instrument == other.Instrument
	return alike, alike.Matches > 0
}

// soundsOf lists the sounds of a layer, each once.
func soundsOf(l *score.Layer) []score.Tone {
	var all score.Chord
	for _, series := range l.Series {
		for _, chord := range series {
			_, struck := chord.Led()
			all = append(all, struck...)
		}
	}
	for _, n := range l.Line {
		_, struck := n.Tones.Led()
		all = append(all, struck...)
	}
	if len(all) == 0 {
		all = append(all, score.Tone{}) // the layer's one sound, whatever it is
	}
	return distinct(all)
}

// overlap reports whether the pitches of one lie between those of the other.
func overlap(a, b []score.Tone) bool {
	key := func(x, y score.Tone) int { return x.Key() - y.Key() }
	for _, t := range append(slices.Clone(a), b...) {
		if !t.IsPitched() {
			return false
		}
	}
	return slices.MinFunc(a, key).Key() <= slices.MaxFunc(b, key).Key() && slices.MinFunc(b, key).Key() <= slices.MaxFunc(a, key).Key()
}

// compare tries every shift at which any two attacks meet.
func (x *Alike) compare(s *score.Section) {
	from := max(s.Layers[x.A].Enters, s.Layers[x.B].Enters)
	to := min(s.Layers[x.A].Leaves, s.Layers[x.B].Leaves, s.Length)
	if period, ok := commonPeriod(s, x.A, x.B); ok && period <= to-from {
		to, x.Cyclic = from+period, true
	}
	one, upA := onsets(s, x.A, from, to)
	other, upB := onsets(s, x.B, from, to)
	if end := min(upA, upB); end < to { // too many to compare all: as far as both go
		to, x.Cyclic = end, false
		before := func(t beat.Time) bool { return t >= end }
		one, other = slices.DeleteFunc(one, before), slices.DeleteFunc(other, before)
	}
	x.Window, x.AttacksA, x.AttacksB = to-from, len(one), len(other)
	matches := map[beat.Time]int{}
	for _, at := range one {
		for _, bt := range other {
			shift := at - bt
			if x.Cyclic {
				shift = shift.Signed(x.Window)
			}
			matches[shift]++
		}
	}
	for shift, n := range matches {
		if n > x.Matches || n == x.Matches && isNearer(shift, x.Shift) {
			x.Shift, x.Matches = shift, n
		}
	}
}

// isNearer orders shifts: the smaller first, of two alike the later.
func isNearer(a, b beat.Time) bool {
	if d := max(a, -a) - max(b, -b); d != 0 {
		return d < 0
	}
	return a > b
}

// commonPeriod is the common period of two loops that run on unchanged.
func commonPeriod(s *score.Section, a, b int) (beat.Time, bool) {
	period := int64(1)
	for _, i := range []int{a, b} {
		l := s.Layers[i]
		if l.Line != nil || len(l.Process) > 0 || l.Loop != score.Run || len(l.Except) > 0 {
			return 0, false
		}
		turn := beat.Time(0)
		for _, p := range l.Patterns {
			turn += beat.Time(score.CountPulses(p.Groups)) * l.Unit
		}
		next, ok := beat.LCM(period, int64(turn))
		if !ok {
			return 0, false
		}
		period = next
	}
	return beat.Time(period), true
}

// onsets lists the attacks of a layer in a stretch, and how far they go: to its
// end, or to the first that is too many.
func onsets(s *score.Section, layer int, from, to beat.Time) (all []beat.Time, until beat.Time) {
	for t := range s.Attacks(layer) {
		switch {
		case t < from:
			continue
		case t >= to:
			return all, to
		case len(all) == mostOnsets:
			return all, t
		}
		all = append(all, t)
	}
	return all, to
}
