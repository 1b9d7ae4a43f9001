package found

import (
	"fmt"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/heard"
)

// Line is one line of attacks, and what was found in it.
type Line struct {
	Name   string
	Player string            // the part's name, where it has several lines; else ""
	Part   *heard.Part       // nil when the line comes from durations or taps
	Played *heard.Part       // of a MIDI file that is read as taps; else nil
	On     *heard.Instrument // which of several that the player has; else nil
	From   beat.Span         // where the list begins in the part
	To     beat.Span         // until where the part was read
	List   *find.List
	Taps   *find.Taps          // nil unless it was tapped
	Ranked []*find.Description // as find.Search returns them without options; nil where it was not asked
	Bars   *heard.Part         // of a meter that is assumed, for places; else nil
}

// Music is the lines of a section, and what else is known of it.
type Music struct {
	Lines []Line
	Plan  Plan
	Clock *find.Taps // of several parts on one clock; else nil
	Notes []string   // on the input, for the user
}

// Places returns the part by whose bars places are named, nil if there are none.
func (l Line) Places() *heard.Part {
	switch {
	case l.Bars != nil:
		return l.Bars
	case l.Part != nil && len(l.Part.Bars) > 0:
		return l.Part
	}
	return nil
}

// Where names a moment of the list, in pulses from 0, as a place in bars if
// there are any.
func (l Line) Where(at int64) string {
	part := l.Places()
	if part == nil {
		return fmt.Sprintf("pulse %d", at+1)
	}
	return part.Where(l.From.Add(l.List.Pulse.Span().Times(at))).String()
}

// Exceptions says which cycles of a description differ, one line each; with their places
// where there are bars or several stretches.
func (l Line) Exceptions(d *find.Description) []string {
	var texts []string
	for _, s := range d.Stretches {
		for _, e := range s.Exceptions {
			place := ""
			if len(d.Stretches) > 1 || l.Places() != nil {
				place = ", at " + l.Where(e.At)
			}
			texts = append(texts, fmt.Sprintf("but cycle %d%s: %s", e.Cycle+1, place, e.Instead()))
		}
	}
	if d.Series == nil {
		return texts
	}
	for _, c := range d.Series.Others {
		place := ""
		if l.Places() != nil {
			place = ", at " + l.Where(c.At)
		}
		texts = append(texts, fmt.Sprintf("but cycle %d%s: pitches %s", c.Cycle+1, place, c.Words(l.List)))
	}
	return texts
}

// start is when the line's first attack is.
func (l Line) start() beat.Span {
	return l.List.Pulse.Span().Times(l.List.Hits[0].At)
}

// end is when the line's last sound ends.
func (l Line) end() beat.Span { return l.List.Pulse.Span().Times(l.List.End) }

// cycle returns when the line's cycles begin and how long they last; ok is false when they
// are not all the same.
func (l Line) cycle() (from, length beat.Span, ok bool) {
	if !l.Ranked[0].IsPlainLoop() {
		return from, length, false
	}
	loop, pulse := l.Ranked[0].Loop(), l.List.Pulse.Span()
	return pulse.Times(loop.At), pulse.Times(loop.Length()), true
}

// partBars returns the bars of the part from which the line was read, as moments of the
// list.
func (l Line) partBars() []heard.Bar {
	var bars []heard.Bar
	for _, bar := range l.Part.Bars {
		if bar.Start.Cmp(l.From) >= 0 && bar.Start.Cmp(l.To) < 0 {
			bar.Start = bar.Start.Sub(l.From)
			bars = append(bars, bar)
		}
	}
	return bars
}
