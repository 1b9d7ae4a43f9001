package found

import (
	"fmt"
	"math/big"

	"tieover/score/beat"
	"tieover/score/find"
)

// Meetings says how lines relate: which begin later, and when all their cycles begin
// together.
func Meetings(lines []Line) []string {
	if len(lines) < 2 {
		return nil
	}
	var texts []string
	first := lines[0]
	for _, line := range lines[1:] {
		if line.start().Cmp(first.start()) < 0 {
			first = line
		}
	}
	for _, line := range lines {
		late := line.start().Sub(first.start())
		if n, whole := late.Over(line.List.Pulse.Span()).IsWhole(); late.Sign() > 0 && whole && line.Part == nil {
			texts = append(texts, fmt.Sprintf("%s begins %s after %s", line.Name, beat.Counted(n, "pulse"), first.Name))
		}
	}
	if text := meetingText(lines); text != "" {
		texts = append(texts, text)
	}
	return texts
}

// meetingText says when the cycles of all lines begin together: the moments of each are an
// arithmetic progression, and these are intersected one after the other (Chinese remainder
// theorem). "" when they are not all plain loops.
func meetingText(lines []Line) string {
	den := int64(1)
	for _, line := range lines {
		from, length, ok := line.cycle()
		if !ok {
			return ""
		}
		for _, span := range []beat.Span{from, length, line.end()} {
			if den, ok = beat.LCM(den, span.Den()); !ok {
				return ""
			}
		}
	}
	units := func(s beat.Span) *big.Int { return big.NewInt(s.Num() * (den / s.Den())) }
	at, period, latest := new(big.Int), big.NewInt(1), new(big.Int)
	for _, line := range lines {
		from, length, _ := line.cycle()
		var ok bool
		if at, ok = beat.Coincide(at, period, units(from), units(length)); !ok {
			return "their cycles never begin together"
		}
		period = beat.BigLCM(period, units(length))
		if units(from).Cmp(latest) > 0 {
			latest = units(from)
		}
	}
	wholeNotes := func(n *big.Int) *big.Rat { return new(big.Rat).SetFrac(n, big.NewInt(den)) }
	again := wholeNotes(period)
	if late := new(big.Int).Sub(latest, at); late.Sign() > 0 { // not before all are there
		n := new(big.Int).Div(late.Add(late, new(big.Int).Sub(period, big.NewInt(1))), period)
		at.Add(at, n.Mul(n, period))
	}
	end := lines[0].end()
	for _, line := range lines[1:] {
		if line.end().Cmp(end) < 0 {
			end = line.end()
		}
	}
	isOver := func(at *big.Int) bool { return at.Cmp(units(end)) >= 0 } // for one of them
	switch {
	case isOver(at):
		return "their cycles do not begin together while all play"
	case at.Sign() == 0 && isOver(period):
		return "all begin together again after " + pulsesText(lines, again) + ", when not all play any more"
	case at.Sign() > 0:
		first := wholeNotes(at)
		return fmt.Sprintf("all begin together after %s%s, and again after every %s", pulsesText(lines, first), placeText(lines, first), pulsesText(lines, again))
	}
	return "all begin together again after " + pulsesText(lines, again) + placeText(lines, again)
}

// pulsesText says a time in the pulse that counts all lines, as "60 eighths"; in whole
// notes where they have none.
func pulsesText(lines []Line, wholeNotes *big.Rat) string {
	var units []beat.Span
	for _, line := range lines {
		units = append(units, line.List.Pulse.Span())
	}
	pulse, err := find.CommonPulse(units)
	if err != nil {
		return wholeNotes.RatString() + " whole notes"
	}
	n := new(big.Rat).Quo(wholeNotes, big.NewRat(pulse.Span().Num(), pulse.Span().Den()))
	return beat.Thousands(n.Num()) + " " + pulse.Name(n.Num().Int64(), beat.American)
}

// placeText names a moment of the lines' bars, "" when they have none there.
func placeText(lines []Line, wholeNotes *big.Rat) string {
	at, ok := beat.ParseSpan(wholeNotes.RatString())
	part := lines[0].Places()
	if !ok || part == nil || at.Cmp(part.End()) >= 0 {
		return ""
	}
	return ", at " + part.Where(at).String()
}
