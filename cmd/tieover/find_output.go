package main

import (
	"fmt"
	"io"
	"math/big"
	"strings"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/spec"
)

// writeText lists the descriptions, the shortest first.
func (o *findOptions) writeText(w io.Writer, lines []findLine) error {
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
func (o *findOptions) writeSpec(s streams, lines []findLine, info findInfo) error {
	var b strings.Builder
	for _, line := range lines {
		fmt.Fprintf(&b, "# %s: %v\n", comment(line.name), line.ranked[0])
	}
	layers, notes := dressed(lines)
	if err := holds(lines, layers); err != nil {
		return exit{wrongData, err}
	}
	for _, note := range notes {
		fmt.Fprintf(&b, "# %s\n", comment(note))
		fmt.Fprintln(s.err, note)
	}
	if text := together(lines); text != "" {
		fmt.Fprintf(&b, "# %s\n", text)
	}
	plan := find.Plan{Title: info.title, Meter: info.meter, Bar: info.bar, Changes: info.changes, Tempo: info.tempo}
	if part := lines[0].part; part != nil && o.bars == "" {
		plan.End = part.End()
	}
	text, err := plan.Spec(layers)
	if err != nil {
		return exit{wrongData, err}
	}
	b.WriteString(text)
	if p, problems := spec.Read([]spec.File{{Name: "spec", Text: []byte(b.String())}}); p == nil {
		return exit{wrongData, fmt.Errorf("this cannot be said in a spec: %s", problems[0].Text)}
	}
	_, err = io.WriteString(s.out, b.String())
	return err
}

// mostTones is how many notes a spec has in a chord.
const mostTones = 16

// holds says what a spec has no room for: a layer more than it may have, or a
// chord of too many notes.
func holds(lines []findLine, layers []find.Found) error {
	if n := len(layers); n > spec.MaxLayers {
		return fmt.Errorf("%d parts and voices; a spec holds %d, so take parts of the score with --part", n, spec.MaxLayers)
	}
	for i, line := range lines {
		for _, h := range line.list.Hits {
			if len(line.list.Chords[h.Chord]) <= mostTones || layers[i].Instrument == "" || layers[i].Bare {
				continue
			}
			if n := len(layers[i].Tones(h.Chord)); n > mostTones {
				return fmt.Errorf("%s, %s: a chord of %d notes; a spec holds %d, so divide it among several parts or voices", line.name, line.where(h.At), n, mostTones)
			}
		}
	}
	return nil
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
