package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/heard"
	"tieover/score/spec"
)

// writeText lists the descriptions, the shortest first.
func (o *findOptions) writeText(w io.Writer, lines []findLine, info findInfo) error {
	var b strings.Builder
	if info.clock != nil {
		describeClock(&b, info.clock)
		b.WriteByte('\n')
	}
	for i, line := range lines {
		if i > 0 {
			b.WriteByte('\n')
		}
		o.describe(&b, line, info)
	}
	if meet := howPartsMeet(lines); len(meet) > 0 {
		b.WriteByte('\n')
		for _, text := range meet {
			fmt.Fprintln(&b, text)
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (o *findOptions) describe(b *strings.Builder, line findLine, info findInfo) {
	l := line.list
	fmt.Fprintf(b, "%s: %d attacks in %s\n", line.name, len(l.Hits), beat.CountOf(l.End, l.Pulse, beat.American))
	if line.taps != nil && info.clock == nil {
		describeClock(b, line.taps)
	}
	told := 0
	for i, d := range line.ranked {
		if told >= o.top || d.Literal && i > 0 {
			break
		}
		if slices.ContainsFunc(line.ranked[:i], d.IsCutOf) {
			continue // told with its loop
		}
		told++
		tie := ""
		if i > 0 && d.Bits() == line.ranked[i-1].Bits() {
			tie = ", equally short"
		}
		if d.Literal {
			fmt.Fprintf(b, "%v (%.1f bits)\n", d, d.Bits())
		} else {
			fmt.Fprintf(b, "%2d. %v\n    %.1f bits, saves %s: %s%s\n", told, d, d.Bits(), saved(d), strength(d), tie)
		}
		for _, cut := range line.ranked[i+1:] {
			if cut.IsCutOf(d) {
				fmt.Fprintf(b, "    or: %s\n", cut.CutText())
			}
		}
		if d.Series != nil {
			fmt.Fprintf(b, "    pitches: %s\n", d.Series.Words(l, d.AttacksPerCycle()))
		}
		line.describeExceptions(b, d, "    ")
	}
	if near := line.ranked[0].Nearest; near != nil && line.ranked[0].Literal {
		fmt.Fprintf(b, "nearest: %v; saves %s\n", near, saved(near))
		line.describeExceptions(b, near, "    ")
		fmt.Fprintf(b, "    --tolerance %d takes it\n", max(near.Exceptions(), 1))
	}
	if line.taps != nil {
		describeTaps(b, line.taps)
	}
}

// describeExceptions lists the cycles that differ; where several stretches, or
// bars, have to be told apart, with their places.
func (line findLine) describeExceptions(b *strings.Builder, d *find.Description, indent string) {
	for _, s := range d.Stretches {
		for _, e := range s.Exceptions {
			place := ""
			if len(d.Stretches) > 1 || line.places() != nil {
				place = ", at " + line.where(e.At)
			}
			fmt.Fprintf(b, "%sbut cycle %d%s: %s\n", indent, e.Cycle, place, e.Instead())
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

// describeClock says how fast and how evenly was tapped.
func describeClock(b *strings.Builder, t *find.Taps) {
	how := "given"
	if t.Estimated {
		how = "estimated, the pulse taken as an eighth"
	}
	fmt.Fprintf(b, "quarter = %.1f (%s), a pulse lasts %.0f ms, taps scatter by %.0f ms", t.Tempo, how, 1000*t.Pulse, 1000*t.Scatter)
	if swing := t.SwingText(); swing != "" {
		fmt.Fprintf(b, ", swung %s", swing)
	}
	b.WriteByte('\n')
	if t.Scatter > t.Pulse/4 {
		fmt.Fprintf(b, "taps scatter by %.0f ms, more than a quarter of the pulse: groups that differ by one pulse are not certain\n", 1000*t.Scatter)
	}
}

// describeTaps says what else the taps allow, and which of them are off.
func describeTaps(b *strings.Builder, t *find.Taps) {
	for _, n := range t.Near {
		fmt.Fprintf(b, "or, as near: %s (%s)\n", n.Text, moreBits(n.Bits))
	}
	for _, d := range t.Deviations {
		word := "late"
		if d.Seconds < 0 {
			word = "early"
		}
		fmt.Fprintf(b, "tap %d is %.0f ms %s\n", d.Tap, 1000*max(d.Seconds, -d.Seconds), word)
	}
	if t.OpenEnd {
		b.WriteString("the last attack's length is not known\n")
	}
}

func moreBits(bits float64) string {
	switch {
	case bits >= 0.05:
		return fmt.Sprintf("%.1f bits more", bits)
	case bits <= -0.05:
		return fmt.Sprintf("%.1f bits fewer, but swung", -bits)
	}
	return "as many bits"
}

// places returns the bars in which places are said, nil if there are none.
func (line findLine) places() *heard.Part {
	switch {
	case line.bars != nil:
		return line.bars
	case line.part != nil && len(line.part.Bars) > 0:
		return line.part
	}
	return nil
}

// where names a moment of the list, as a place in bars if there are any.
func (line findLine) where(at int64) string {
	part := line.places()
	if part == nil {
		return fmt.Sprintf("pulse %d", at+1)
	}
	return part.Where(line.from.Add(line.list.Pulse.Span().Times(at))).String()
}

// writeSpec writes a section spec; what was found stands above it as remarks.
func (o *findOptions) writeSpec(s streams, lines []findLine, info findInfo) error {
	var b strings.Builder
	for _, line := range lines {
		fmt.Fprintf(&b, "# %s: %v\n", comment(line.name), line.ranked[0])
		var differs strings.Builder
		line.describeExceptions(&differs, line.ranked[0], "#   ")
		b.WriteString(differs.String())
	}
	layers, notes := dressed(lines)
	if err := holds(lines, layers); err != nil {
		return exit{wrongData, err}
	}
	for _, note := range notes {
		fmt.Fprintf(&b, "# %s\n", comment(note))
		fmt.Fprintln(s.err, note)
	}
	for _, text := range howPartsMeet(lines) {
		fmt.Fprintf(&b, "# %s\n", text)
	}
	if info.swing != "" {
		fmt.Fprintf(&b, "# swung %s; this spec sounds straight\n", info.swing)
	}
	plan := find.Plan{Title: info.title, Meter: info.meter, Bar: info.bar, Changes: info.changes, Tempo: info.tempo, Swing: info.swing}
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
