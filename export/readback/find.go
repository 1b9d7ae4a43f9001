package readback

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/found"
)

// Find writes what was found in words: of each line as many descriptions as top, the
// shortest first, and where the lines meet.
func Find(w io.Writer, m found.Music, top int) error {
	var b strings.Builder
	if m.Clock != nil {
		describeClock(&b, m.Clock)
		b.WriteByte('\n')
	}
	for i, line := range m.Lines {
		if i > 0 {
			b.WriteByte('\n')
		}
		describe(&b, line, m.Clock != nil, top)
	}
	if meet := found.Meetings(m.Lines); len(meet) > 0 {
		b.WriteByte('\n')
		for _, text := range meet {
			fmt.Fprintln(&b, text)
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func describe(b *strings.Builder, line found.Line, oneClock bool, top int) {
	l := line.List
	fmt.Fprintf(b, "%s: %s in %s\n", line.Name, beat.Counted(len(l.Hits), "attack"), beat.CountOf(l.End, l.Pulse, beat.American))
	if line.Taps != nil && !oneClock {
		describeClock(b, line.Taps)
	}
	shown := 0
	for i, d := range line.Ranked {
		if shown >= top || d.Literal && i > 0 {
			break
		}
		if slices.ContainsFunc(line.Ranked[:i], d.IsCutOf) {
			continue // shown with its loop
		}
		shown++
		tie := ""
		if i > 0 && d.Bits() == line.Ranked[i-1].Bits() {
			tie = ", equally short"
		}
		if d.Literal {
			fmt.Fprintf(b, "%v (%.1f bits)\n", d, d.Bits())
		} else {
			fmt.Fprintf(b, "%2d. %v\n    %.1f bits, saves %s: %s%s\n", shown, d, d.Bits(), saved(d), strength(d), tie)
		}
		for _, cut := range line.Ranked[i+1:] {
			if cut.IsCutOf(d) {
				fmt.Fprintf(b, "    or: %s\n", cut.CutText())
			}
		}
		if d.Series != nil {
			fmt.Fprintf(b, "    pitches: %s\n", d.SeriesWords(l))
		}
		describeExceptions(b, line, d)
	}
	if near := line.Ranked[0].Nearest; near != nil && line.Ranked[0].Literal {
		fmt.Fprintf(b, "nearest: %v; saves %s\n", near, saved(near))
		describeExceptions(b, line, near)
		fmt.Fprintf(b, "    --tolerance %d takes it\n", max(near.Exceptions(), 1))
	}
	if line.Taps != nil {
		describeTaps(b, line.Taps)
	}
}

// describeExceptions lists the cycles that differ.
func describeExceptions(b *strings.Builder, line found.Line, d *find.Description) {
	for _, text := range line.Exceptions(d) {
		fmt.Fprintf(b, "    %s\n", text)
	}
}

// saved says how many bits shorter than the bare list a description is. A loop
// that was heard twice is shown even if it is no shorter.
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
	if swing := t.Swing.String(); swing != "" {
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
