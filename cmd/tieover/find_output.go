package main

import (
	"fmt"
	"io"
	"iter"
	"math/big"
	"strings"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/heard"
	"tieover/score/instrument"
)

// writeText lists the descriptions, the shortest first.
func (o *findOptions) writeText(w io.Writer, lines []findLine, _ findInfo) error {
	var b strings.Builder
	for i, line := range lines {
		if i > 0 {
			b.WriteByte('\n')
		}
		o.describe(&b, line)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (o *findOptions) describe(b *strings.Builder, line findLine) {
	l := line.list
	fmt.Fprintf(b, "%s: %d attacks in %s\n", line.name, len(l.Hits), beat.CountOf(l.End, l.Pulse, beat.American))
	if line.taps != nil {
		describeTaps(b, line.taps)
	}
	for i, d := range line.ranked {
		if i >= o.top || d.Literal && i > 0 {
			break
		}
		tie := ""
		if i > 0 && d.Bits() == line.ranked[i-1].Bits() {
			tie = ", equally short"
		}
		if d.Literal {
			fmt.Fprintf(b, "%v (%.1f bits)\n", d, d.Bits())
		} else {
			fmt.Fprintf(b, "%2d. %v\n    %.1f bits, saves %s: %s%s\n", i+1, d, d.Bits(), saved(d), strength(d), tie)
		}
		if d.Series != nil {
			fmt.Fprintf(b, "    pitches: %s\n", d.Series.Words(l, d.AttacksPerCycle()))
		}
		for _, e := range d.Exceptions {
			fmt.Fprintf(b, "    but %s: %s\n", line.where(e.At), e)
		}
	}
}

// saved says how many bits shorter than the bare list a description is. A loop
// that was heard twice is told even if it is no shorter.
func saved(d *find.Description) string {
	if d.Saved < 0.05 {
		return "nothing"
	}
	return fmt.Sprintf("%.1f", d.Saved)
}

func strength(d *find.Description) string {
	if d.Strong() {
		return "strong"
	}
	return "weak"
}

func describeTaps(b *strings.Builder, t *find.Taps) {
	how := "given"
	if t.Estimated {
		how = "estimated, the pulse taken as an eighth"
	}
	fmt.Fprintf(b, "quarter = %.1f (%s), a pulse lasts %.0f ms, taps are at most %.0f ms off\n", t.Tempo, how, 1000*t.Pulse, 1000*t.Worst)
	for _, d := range t.Deviations {
		word := "late"
		if d.Seconds < 0 {
			word = "early"
		}
		fmt.Fprintf(b, "    tap %d is %.0f ms %s\n", d.Tap, 1000*max(d.Seconds, -d.Seconds), word)
	}
}

// where names a moment of the list, as a place in the score if it has one.
func (line findLine) where(at int64) string {
	if line.part == nil || len(line.part.Bars) == 0 {
		return fmt.Sprintf("pulse %d", at+1)
	}
	return line.part.Where(line.from.Add(line.list.Pulse.Span().Times(at))).String()
}

// writeSpec writes a section spec; what was found stands above it as remarks.
func (o *findOptions) writeSpec(w io.Writer, lines []findLine, info findInfo) error {
	var b strings.Builder
	var layers []find.Found
	for _, line := range lines {
		best := line.ranked[0]
		fmt.Fprintf(&b, "# %s: %v\n", comment(line.name), best)
		layers = append(layers, find.Found{Name: line.name, Player: line.player, List: line.list, Ranked: line.ranked})
	}
	for i := range layers {
		dress(&layers[i], playersLists(layers, i))
	}
	if text := together(lines); text != "" {
		fmt.Fprintf(&b, "# %s\n", text)
	}
	plan := find.Plan{Title: info.title, Meter: info.meter, Bar: info.bar, Tempo: info.tempo}
	if part := lines[0].part; part != nil && o.bars == "" {
		plan.End = part.End()
	}
	spec, err := plan.Spec(layers)
	if err != nil {
		return exit{wrongData, err}
	}
	_, err = io.WriteString(w, b.String()+spec)
	return err
}

func comment(text string) string { return strings.Join(strings.Fields(text), " ") }

// together says when the cycles of all lines begin together again, by
// arithmetic; "" when they are not all plain loops from the start.
func together(lines []findLine) string {
	if len(lines) < 2 {
		return ""
	}
	den := int64(1)
	for _, line := range lines {
		d := line.ranked[0]
		if d.Literal || d.CutEvery > 0 || d.Lead > 0 || len(d.Process) > 0 {
			return ""
		}
		var ok bool
		if den, ok = beat.LCM(den, line.list.Pulse.Span().Den()); !ok {
			return ""
		}
	}
	period := big.NewInt(1)
	for _, line := range lines {
		cycle := line.list.Pulse.Span().Times(line.ranked[0].Length())
		n := big.NewInt(cycle.Num() * (den / cycle.Den()))
		gcd := new(big.Int).GCD(nil, nil, period, n)
		period.Mul(period.Div(period, gcd), n)
	}
	wholes := new(big.Rat).SetFrac(period, big.NewInt(den))
	text := "all begin together again after " + wholes.RatString() + " whole notes"
	part := lines[0].part
	if at, ok := beat.ParseSpan(wholes.RatString()); ok && part != nil && len(part.Bars) > 0 && at.Cmp(part.End()) < 0 {
		text += ", at " + part.Where(at).String()
	}
	return text
}

// playersLists returns the lists of all layers that share layer i's player, who
// has one instrument for them.
func playersLists(layers []find.Found, i int) []*find.List {
	var all []*find.List
	for k, f := range layers {
		if k == i || f.Player != "" && f.Player == layers[i].Player {
			all = append(all, f.List)
		}
	}
	return all
}

// dress chooses an instrument for a line: the one its name says, if that can
// sound it; else a common one that can; else none, for a mere rhythm.
func dress(f *find.Found, all []*find.List) {
	pitched, drums := soundsOf(all)
	name := f.Name
	if f.Player != "" {
		name = f.Player
	}
	named, _ := instrument.Find(strings.TrimRight(name, " 0123456789"))
	switch {
	case len(drums) > 0 && !pitched:
		if on := kitFor(named, drums); on != nil {
			f.Instrument, f.Bare = on.Name, len(on.Drums) == 1
			f.Sound = func(t heard.Tone) string { return on.Drums[drumOf(on, t)].Name }
		}
	case pitched && len(drums) == 0:
		f.Instrument = "piano"
		if named != nil && !named.IsUnpitched() && inRange(all, named) {
			f.Instrument = named.Name
		}
	}
}

// inRange reports whether the instrument reaches every pitch of the lists.
func inRange(lists []*find.List, on *instrument.Instrument) bool {
	for t := range tones(lists) {
		if key, _ := t.Key(); key < on.Low || key > on.High {
			return false
		}
	}
	return true
}

// tones walks every tone of the lists.
func tones(lists []*find.List) iter.Seq[heard.Tone] {
	return func(yield func(heard.Tone) bool) {
		for _, l := range lists {
			for _, chord := range l.Chords {
				for _, t := range chord {
					if !yield(t) {
						return
					}
				}
			}
		}
	}
}

// soundsOf reports whether the lists have pitches, and their drum sounds.
func soundsOf(lists []*find.List) (pitched bool, drums []heard.Tone) {
	for t := range tones(lists) {
		switch {
		case t.Step != 0:
			pitched = true
		case t.Name != "" || t.MIDI > 0:
			drums = append(drums, t)
		}
	}
	return pitched, drums
}

// kitFor returns the instrument that has all the sounds: the named one, else
// the one with the fewest sounds besides.
func kitFor(named *instrument.Instrument, drums []heard.Tone) *instrument.Instrument {
	has := func(i *instrument.Instrument) bool {
		for _, t := range drums {
			if drumOf(i, t) < 0 {
				return false
			}
		}
		return true
	}
	if named != nil && named.IsUnpitched() && has(named) {
		return named
	}
	var best *instrument.Instrument
	for _, i := range instrument.All() {
		if i.IsUnpitched() && has(i) && (best == nil || len(i.Drums) < len(best.Drums)) {
			best = i
		}
	}
	return best
}

// drumOf returns which sound of the instrument a tone is, -1 if none.
func drumOf(i *instrument.Instrument, t heard.Tone) int {
	for k, d := range i.Drums {
		if t.MIDI > 0 && int(t.MIDI)-1 == d.Key {
			return k
		}
	}
	for k, d := range i.Drums {
		if t.Name == d.Label || t.Name == d.Name {
			return k
		}
	}
	return -1
}
