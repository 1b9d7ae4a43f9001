package grammar

import (
	"fmt"
	"strings"

	"tieover/score"
	"tieover/score/beat"
)

const MaxPlace = 1_000_000_000

// Place reads "bar 5", "bar 5 beat 3", "pulse 17", "realignment 1",
// "cycle 3", and, in a plan, "Marimba cycle 3" or "cycle 3 of Marimba",
// "Marimba cycle 3 attack 2" and "Flute attack 12"; also "pickup" and "pickup beat 4".
func Place(text string, plan bool) (score.Place, *Slip) {
	hint := "write bar 5, bar 5 beat 3, cycle 3, pulse 17 or realignment 1"
	if plan {
		hint = "write bar 5, bar 5 beat 3, pulse 17, realignment 1, NAME cycle 3 or NAME attack 12"
	}
	all := Words(text)
	noPlace := Wrong(0, hint, "%q is no place", Shortened(text))
	var p score.Place
	if plan {
		if n := len(all); n >= 2 && all[n-2].Text == "attack" {
			return parseAttack(text, all, noPlace)
		}
		all, p.Layer = takeLayer(text, all)
	}
	if p.Layer == "" && len(all) > 0 && all[0].Text == "pickup" && (len(all) == 1 || len(all) == 3) {
		return inBar(p, all[1:], noPlace) // bar 0
	}
	if len(all) != 2 && len(all) != 4 {
		return p, noPlace
	}
	kinds := map[string]score.PlaceKind{"bar": score.AtBar, "cycle": score.AtCycle, "pulse": score.AtPulse, "realignment": score.AtRealignment}
	kind, ok := kinds[all[0].Text]
	n, isNumber := Whole(all[1].Text)
	if !ok || !isNumber || p.Layer != "" && kind != score.AtCycle {
		return p, noPlace
	}
	p.Kind, p.N = kind, n
	if n > 0 || kind != score.AtRealignment || !plan {
		if _, bad := countFromOne(all[0].Text, n, all[1]); bad != nil {
			return p, bad
		}
	}
	if len(all) == 4 && kind != score.AtBar {
		return p, noPlace
	}
	return inBar(p, all[2:], noPlace)
}

// inBar reads the "beat 3" of a place in a bar, if there is any.
func inBar(p score.Place, all []Word, noPlace *Slip) (score.Place, *Slip) {
	if len(all) == 0 {
		return p, nil
	}
	beat, ok := Whole(all[1].Text)
	if all[0].Text != "beat" || !ok {
		return p, noPlace
	}
	if beat == 0 || beat > maxCount {
		return p, Wrong(all[1].At, "count beats from 1", "there is no beat %s", Shortened(all[1].Text))
	}
	p.Beat = int(beat)
	return p, nil
}

// parseAttack reads a place that ends in "attack 12", perhaps of one cycle.
func parseAttack(text string, all []Word, noPlace *Slip) (p score.Place, bad *Slip) {
	last := len(all) - 1
	n, isNumber := Whole(all[last].Text)
	if !isNumber {
		return p, noPlace
	}
	if p.N, bad = countFromOne("attack", n, all[last]); bad != nil {
		return p, bad
	}
	p.Kind = score.AtAttack
	rest := all[:last-1]
	if k := len(rest); k >= 2 && rest[k-2].Text == "cycle" {
		if n, isNumber := Whole(rest[k-1].Text); isNumber {
			if p.Cycle, bad = countFromOne("cycle", n, rest[k-1]); bad != nil {
				return p, bad
			}
			rest = rest[:k-2]
		}
	}
	if k := len(rest); k > 0 {
		p.Layer = strings.TrimSpace(text[:rest[k-1].At+len(rest[k-1].Text)])
	}
	return p, nil
}

func countFromOne(kind string, n int64, w Word) (int64, *Slip) {
	if n == 0 {
		hint := "count from 1"
		if kind == "bar" {
			hint = "count from 1; what comes before bar 1 is the pickup"
		}
		return 0, Wrong(w.At, hint, "there is no %s 0", kind)
	}
	if n > MaxPlace {
		return 0, Wrong(w.At, fmt.Sprintf("use at most %d", MaxPlace), "%s %s is too far away", kind, Shortened(w.Text))
	}
	return n, nil
}

// takeLayer takes a layer's name off a plan's place.
func takeLayer(text string, all []Word) ([]Word, string) {
	n := len(all)
	switch {
	case n > 2 && all[n-2].Text == "cycle":
		return all[n-2:], strings.TrimSpace(text[:all[n-2].At])
	case n > 3 && all[0].Text == "cycle" && all[2].Text == "of":
		return all[:2], strings.TrimSpace(text[all[3].At:])
	}
	return all, ""
}

// Pickup reads how much of a bar comes before bar 1: a note value, or so many of one.
func Pickup(text string) (length beat.Span, bad *Slip) {
	length, ok := beat.ParseSpan(strings.TrimSpace(text))
	if ok && length.Sign() > 0 && isValue(beat.Of(1, length.Den())) {
		return length, nil
	}
	if length, bad = parseValue(text); bad != nil {
		return length, Wrong(0, "write how long it is, as in 1/4 or 3/8", "%q is no length of a pickup", Shortened(text))
	}
	return length, nil
}

// Length reads "2 realignments", "16 bars", "90 pulses", "1 return".
func Length(text string) (score.LengthRule, *Slip) {
	all := Words(text)
	hint := "write 2 realignments, 16 bars, 90 pulses or 1 return"
	if _, ok := Whole(strings.Join(strings.Fields(text), "")); ok {
		hint = "say of what: " + Shortened(strings.TrimSpace(text)) + " bars, pulses, realignments or returns"
	} else if len(all) == 2 && strings.HasPrefix(all[1].Text, "measure") {
		hint = "write " + Shortened(all[0].Text) + " bars"
	}
	if len(all) != 2 {
		return score.LengthRule{}, Wrong(0, hint, "%q is no length", Shortened(text))
	}
	kinds := map[string]score.LengthKind{"realignment": score.Realignments, "bar": score.Bars, "pulse": score.Pulses, "return": score.Returns}
	kind, ok := kinds[strings.TrimSuffix(all[1].Text, "s")]
	n, isNumber := Whole(all[0].Text)
	if !ok || !isNumber {
		return score.LengthRule{}, Wrong(0, hint, "%q is no length", Shortened(text))
	}
	if n == 0 || n > MaxPlace {
		return score.LengthRule{}, Wrong(all[0].At, fmt.Sprintf("write a number from 1 to %d", MaxPlace), "a section cannot last %s %s", Shortened(all[0].Text), all[1].Text)
	}
	return score.LengthRule{Kind: kind, N: n}, nil
}

// Loop reads "run", "cut every 6 bars", "restart at realignment".
func Loop(text string) (loop score.Loop, bars int, bad *Slip) {
	s := JoinLines(text)
	switch s {
	case "run":
		return score.Run, 0, nil
	case "restart at realignment":
		return score.CutRealignment, 0, nil
	case "cut every bar":
		return score.CutBars, 1, nil
	}
	f := strings.Fields(s)
	if len(f) == 4 && f[0] == "cut" && f[1] == "every" && strings.TrimSuffix(f[3], "s") == "bar" {
		if n, ok := Whole(f[2]); ok && n > 0 && n <= 1_000_000 {
			return score.CutBars, int(n), nil
		}
	}
	return score.Run, 0, Wrong(0, "write run, cut every 6 bars or restart at realignment", "%q is no way to loop", Shortened(s))
}
