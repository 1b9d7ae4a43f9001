package found

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/heard"
)

// Layer is one layer of a section to be written.
type Layer struct {
	Name       string
	Player     string // whose part it is, where one part has several layers; else ""
	Instrument string // as a spec names it; "" for a mere rhythm
	List       *find.List
	Ranked     []*find.Description // as find.Search returns them
	// Sound names a tone of an unpitched instrument as a spec does; nil when the
	// layer's tones are pitches.
	Sound func(heard.Tone) string
	Bare  bool // the instrument has a single sound, which need not be named
}

// Limits of a spec for one cycle.
const (
	mostGroups = 4096
	mostSize   = 4096
	mostOffset = 1_000_000
	mostChords = 4096
)

// fitsCycle reports whether a spec has room for the groups.
func fitsCycle(groups []find.Item) bool {
	return len(groups) <= mostGroups && !slices.ContainsFunc(groups, func(i find.Item) bool { return i.Size > mostSize })
}

// layer writes one line of attacks, as one layer or as one for each stretch.
func (w *writer) layer(f Layer) string {
	for _, d := range f.Ranked {
		if layers, ok := w.stretches(f, d); ok {
			return layers
		}
	}
	return w.head(f) + f.line(0, f.List.End)
}

func (w *writer) head(f Layer) string {
	s := "  - name: " + quote(f.Name) + "\n"
	if f.Player != "" {
		s += "    player: " + quote(f.Player) + "\n"
	}
	if f.Instrument != "" {
		s += "    instrument: " + f.Instrument + "\n"
	}
	if f.List.Pulse != w.pulse {
		s += fmt.Sprintf("    pulse: %v\n", f.List.Pulse)
	}
	return s
}

// begins returns how many pulses late a loop is that begins after so many pulses of the
// list, and whether it is early: then they count from the pickup.
func (w *writer) begins(f Layer, pulse int64) (late int64, early bool) {
	if w.pickup == 0 {
		return pulse, false
	}
	n, whole := w.plan.Pickup.Over(f.List.Pulse.Span()).IsWhole()
	if whole && pulse >= n {
		return pulse - n, false
	}
	return pulse, true
}

// at returns a pulse of the list as one of the section, from 1. ok is false where the
// section has none there, as in its pickup.
func (w *writer) at(f Layer, pulse int64) (at int64, ok bool) {
	at, whole := f.List.Pulse.Span().Times(pulse).Over(w.pulse.Span()).IsWhole()
	return at + 1 - w.pickup, whole && at >= w.pickup
}

// bars says a length in bars of the plan's meter.
func (w *writer) bars(length beat.Span) (text string, ok bool) {
	if w.plan.Bar.Sign() == 0 {
		return "", false
	}
	n, whole := length.Over(w.plan.Bar).IsWhole()
	return beat.Counted(n, "bar"), whole && n >= 1 && n < math.MaxInt32
}

// leaves says when the layer stops, "" if the loop does not sound on after the list has
// ended. ok is false where it must stop and a spec cannot say when.
func (w *writer) leaves(f Layer, d *find.Description) (at string, ok bool) {
	length := w.end.Over(f.List.Pulse.Span())
	until := (length.Num() + length.Den() - 1) / length.Den() // rounded up
	if until == f.List.End {
		return "", true
	}
	pulse, ok := w.at(f, f.List.End)
	at = fmt.Sprintf("pulse %d", pulse)
	if w.plan.Bar.Sign() > 0 {
		if bars, whole := w.pulse.Span().Times(pulse - 1).Over(w.plan.Bar).IsWhole(); whole {
			at = fmt.Sprintf("bar %d", bars+1)
		}
	}
	loop := d.Loop()
	if !d.IsExact() || loop.Melody != nil {
		return at, ok
	}
	last, after := int64(0), false
	_, _, spent := loop.Strokes(until, func(s find.Stroke) bool {
		last, after = s.At+s.Length, s.At >= f.List.End
		return !after
	})
	usedUp := spent && !loop.Spent // later than the list: a spec would complain
	if !after && last <= f.List.End && !usedUp {
		return "", true
	}
	return at, ok
}

// hasPitches reports whether the layer's tones are named.
func (f Layer) hasPitches() bool { return f.Instrument != "" && !f.Bare }

// series writes the pitches, "" when the layer has none. ok is false when they are too
// many.
func (f Layer) series(d *find.Description) (text string, ok bool) {
	switch {
	case d.Series == nil || !f.hasPitches():
		return "", true
	case len(d.Series.Chords) > mostChords || len(d.Series.Others) > mostListed:
		return "", false
	case len(d.Series.Order) == 0:
		return f.chords(d.Series.Chords), true
	}
	var cycles []string
	for _, chords := range d.Series.InTurn(d.Loop().Cycles) {
		cycles = append(cycles, f.chords(chords))
	}
	return listText(cycles), len(cycles) <= mostListed
}

func (f Layer) chords(all []int) string {
	names := make([]string, len(all))
	for i, c := range all {
		names[i] = f.chord(c)
	}
	return strings.Join(names, " ")
}

func (f Layer) chord(c int) string { return beat.Plus(f.Tones(c)) }

// Tones names the tones of a chord of the list as the layer's spec does, each
// once: two voices may sound a unison.
func (f Layer) Tones(chord int) []string {
	name := f.Sound
	if name == nil {
		name = spellTone
	}
	var names []string
	for _, t := range f.List.Chords[chord] {
		if s := name(t); !slices.Contains(names, s) {
			names = append(names, s)
		}
	}
	return names
}

// line writes the attacks from one moment until another one by one.
func (f Layer) line(from, until int64) string {
	var sounds []string
	now := from
	for _, h := range f.List.Hits {
		if h.At < from || h.At >= until {
			continue
		}
		if h.At > now {
			sounds = append(sounds, fmt.Sprintf("rest %d", h.At-now))
		}
		sound := "x"
		if f.hasPitches() {
			sound = f.chord(h.Chord)
		}
		now = min(h.At+h.Length, until)
		sounds = append(sounds, sound+" "+strconv.FormatInt(now-h.At, 10))
	}
	return foldEntry("    line: ", strings.Join(sounds, ", "))
}
