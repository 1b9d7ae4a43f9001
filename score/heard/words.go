package heard

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tieover/score/beat"
)

// String names the tone as a spec does: "F#4", "snare", "key 60", and "x" for
// a bare rhythm.
func (t Tone) String() string {
	switch {
	case t.Step != 0:
		sign := strings.Repeat("#", max(0, int(t.Alter))) + strings.Repeat("b", max(0, -int(t.Alter)))
		return fmt.Sprintf("%c%s%d", t.Step, sign, t.Octave)
	case t.Name != "":
		return t.Name
	case t.MIDI > 0:
		return "key " + strconv.Itoa(int(t.MIDI)-1)
	case t.Shown != "":
		return "x on " + t.Shown
	}
	return "x"
}

// Names joins the tones of an attack with "+".
func (a Attack) Names() string {
	names := make([]string, len(a.Tones))
	for i, t := range a.Tones {
		names[i] = t.String()
	}
	return strings.Join(names, "+")
}

// Shown returns the bar's number as a page shows it.
func (b Bar) Shown() string { return cmp.Or(b.Printed, b.Number) }

// Where is a place in a part as a player says it.
type Where struct {
	Bar  string // number of the bar
	Pass int    // 2 and more when the bar is repeated
	Beat int    // from 1; 0 when the place is in no bar
	Past beat.Span
	Half bool // exactly half a beat past it

	AtEnd, PastEnd bool // in no bar, but where the last one ends, or later
}

// Where returns the place of a moment. Before the first bar and after the
// last it counts on in the nearest bar.
func (p *Part) Where(at beat.Span) Where {
	if len(p.Bars) == 0 {
		return Where{Past: at}
	}
	i, _ := slices.BinarySearchFunc(p.Bars, at, func(b Bar, at beat.Span) int { return cmp.Or(b.Start.Cmp(at), -1) })
	bar := p.Bars[max(0, i-1)]
	w := Where{Bar: bar.Shown(), Pass: bar.Pass, Beat: 1, Past: at.Sub(bar.Start).Add(bar.Skipped)}
	if i == len(p.Bars) {
		over := at.Cmp(bar.Start.Add(bar.Length))
		w.AtEnd, w.PastEnd = over == 0, over > 0
	}
	last := beat.Of(1, 4)
	for n := 0; ; n++ {
		if n < len(bar.Beats) {
			last = bar.Beats[n]
		}
		if w.Past.Cmp(last) < 0 || n > 1<<16 {
			break
		}
		w.Past = w.Past.Sub(last)
		w.Beat++
	}
	w.Half = w.Past.Times(2) == last
	return w
}

// String writes "bar 5 beat 2", "bar 5 beat 2½", "bar 5 beat 2 +1/16"; a later
// time through a repeat is said, and that it is the end, as in "the end (bar 12
// beat 6)".
func (w Where) String() string {
	switch {
	case w.AtEnd:
		return "the end (" + w.inBar() + ")"
	case w.PastEnd:
		return "past the end (" + w.inBar() + ")"
	}
	return w.inBar()
}

func (w Where) inBar() string {
	if w.Beat == 0 {
		return w.Past.String() + " whole notes from the start"
	}
	s := "bar " + w.Bar
	if w.Pass > 1 {
		s += fmt.Sprintf(" (time %d)", w.Pass)
	}
	s += " beat " + strconv.Itoa(w.Beat)
	switch {
	case w.Half:
		return s + "½"
	case w.Past.Sign() != 0:
		return s + " +" + w.Past.String()
	}
	return s
}

// Beats returns the lengths of the beats of a bar whose signature counts the
// given groups of 1/unit notes: each summand of an additive signature is a
// beat, three of the unit make one in 6, 9, 12 … over 8 or shorter (common
// practice), else each unit is one.
func Beats(groups []int, unit int) []beat.Span {
	if len(groups) == 1 {
		n := groups[0]
		per := 1
		if unit >= 8 && n > 3 && n%3 == 0 {
			per = 3
		}
		return slices.Repeat([]beat.Span{beat.Of(int64(per), int64(unit))}, n/per)
	}
	beats := make([]beat.Span, len(groups))
	for i, g := range groups {
		beats[i] = beat.Of(int64(g), int64(unit))
	}
	return beats
}
