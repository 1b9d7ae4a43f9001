package find

import (
	"fmt"
	"math"
	"strings"

	"tieover/score/beat"
	"tieover/score/heard"
)

// bars says a length in bars of the plan's meter.
func (w *writer) bars(length beat.Span) (text string, ok bool) {
	if w.plan.Bar.Sign() == 0 {
		return "", false
	}
	n, whole := length.Over(w.plan.Bar).IsWhole()
	return beat.Counted(n, "bar"), whole && n >= 1 && n < math.MaxInt32
}

// pitches writes the series, "" when the layer has none.
func (w *writer) pitches(f Found, d *Description) (text string, ok bool) {
	if d.Series == nil || f.Instrument == "" || f.Bare {
		return "", true
	}
	if len(d.Series.Chords) > mostChords {
		return "", false
	}
	if len(d.Series.Order) == 0 {
		return f.chords(d.Series.Chords), true
	}
	rounds := min(int(d.Series.home()), d.Cycles)
	series := make([]string, rounds)
	for i := range series {
		series[i] = f.chords(d.Series.round(i))
	}
	return "[" + strings.Join(series, ", ") + "]", rounds <= mostListed
}

func (f Found) chords(all []int) string {
	names := make([]string, len(all))
	for i, c := range all {
		names[i] = f.chord(c)
	}
	return strings.Join(names, " ")
}

func (f Found) chord(c int) string { return beat.Plus(f.Tones(c)) }

// Tones names the tones of a chord of the list as the layer's spec does, each
// once: two voices may sound a unison.
func (f Found) Tones(chord int) []string {
	name := f.Sound
	if name == nil {
		name = spellTone
	}
	var names []string
	seen := map[string]bool{}
	for _, t := range f.List.Chords[chord] {
		if s := name(t); !seen[s] {
			seen[s] = true
			names = append(names, s)
		}
	}
	return names
}

func chordText(tones []heard.Tone) string {
	names := make([]string, len(tones))
	for i, t := range tones {
		names[i] = t.String()
	}
	return beat.Plus(names)
}

// leaves says when the layer stops, if the loop would sound on after the list
// has ended. ok is false where it must and a spec cannot say when.
func (w *writer) leaves(f Found, d *Description) (at string, must, ok bool) {
	length := w.end.Over(f.List.Pulse.Span())
	until := (length.Num() + length.Den() - 1) / length.Den() // rounded up
	if until == f.List.End {
		return "", false, true
	}
	pulse, ok := w.at(f, f.List.End)
	at = fmt.Sprintf("pulse %d", pulse)
	if d.Stretches != nil || d.Melody != nil {
		return at, true, ok
	}
	last, after := int64(0), false
	longer := *d
	longer.strokes(until, func(s stroke) bool {
		last, after = s.at+s.length, s.at >= f.List.End
		return !after
	})
	usedUp := longer.spent && !d.spent // later than the list: a spec would complain
	if !after && last <= f.List.End && !usedUp {
		return "", false, true
	}
	return at, true, ok
}

// line writes the attacks from a moment until another as they stand.
func (f Found) line(from, until int64) string {
	var entries []string
	now := from
	for _, h := range f.List.Hits {
		if h.At < from || h.At >= until {
			continue
		}
		if h.At > now {
			entries = append(entries, fmt.Sprintf("rest %d", h.At-now))
		}
		sound := "x"
		if f.Instrument != "" && !f.Bare {
			sound = f.chord(h.Chord)
		}
		now = min(h.At+h.Length, until)
		entries = append(entries, fmt.Sprintf("%s %d", sound, now-h.At))
	}
	return foldEntry("    line: ", strings.Join(entries, ", "))
}
