package spec

import (
	"fmt"
	"strings"

	"tieover/score"
)

const maxPlace = 1_000_000_000

// parsePlace reads "bar 5", "bar 5 beat 3", "pulse 17", "realignment 1",
// "cycle 3", and, in a plan, "Marimba cycle 3" or "cycle 3 of Marimba",
// "Marimba cycle 3 attack 2" and "Flute attack 12".
func parsePlace(text string, plan bool) (score.Place, *slip) {
	hint := "write bar 5, bar 5 beat 3, cycle 3, pulse 17 or realignment 1"
	if plan {
		hint = "write bar 5, bar 5 beat 3, pulse 17, realignment 1, NAME cycle 3 or NAME attack 12"
	}
	all := words(text)
	no := wrong(0, hint, "%q is no place", shortened(text))
	var p score.Place
	if plan {
		if n := len(all); n >= 2 && all[n-2].text == "attack" {
			return parseAttack(text, all, no)
		}
		all, p.Layer = takeLayer(text, all)
	}
	if len(all) != 2 && len(all) != 4 {
		return p, no
	}
	kinds := map[string]score.PlaceKind{"bar": score.AtBar, "cycle": score.AtCycle, "pulse": score.AtPulse, "realignment": score.AtRealignment}
	kind, ok := kinds[all[0].text]
	n, isNumber := whole(all[1].text)
	if !ok || !isNumber || p.Layer != "" && kind != score.AtCycle {
		return p, no
	}
	p.Kind, p.N = kind, n
	if n > 0 || kind != score.AtRealignment || !plan {
		if _, bad := countFromOne(all[0].text, n, all[1]); bad != nil {
			return p, bad
		}
	}
	if len(all) == 4 {
		beat, ok := whole(all[3].text)
		if kind != score.AtBar || all[2].text != "beat" || !ok {
			return p, no
		}
		if beat == 0 || beat > maxCount {
			return p, wrong(all[3].at, "count beats from 1", "there is no beat %s", shortened(all[3].text))
		}
		p.Beat = int(beat)
	}
	return p, nil
}

// parseAttack reads a place that ends in "attack 12", perhaps of one cycle.
func parseAttack(text string, all []word, no *slip) (p score.Place, bad *slip) {
	last := len(all) - 1
	n, isNumber := whole(all[last].text)
	if !isNumber {
		return p, no
	}
	if p.N, bad = countFromOne("attack", n, all[last]); bad != nil {
		return p, bad
	}
	p.Kind = score.AtAttack
	rest := all[:last-1]
	if k := len(rest); k >= 2 && rest[k-2].text == "cycle" {
		if n, isNumber := whole(rest[k-1].text); isNumber {
			if p.Cycle, bad = countFromOne("cycle", n, rest[k-1]); bad != nil {
				return p, bad
			}
			rest = rest[:k-2]
		}
	}
	if k := len(rest); k > 0 {
		p.Layer = strings.TrimSpace(text[:rest[k-1].at+len(rest[k-1].text)])
	}
	return p, nil
}

func countFromOne(kind string, n int64, w word) (int64, *slip) {
	if n == 0 {
		return 0, wrong(w.at, "count from 1", "there is no %s 0", kind)
	}
	if n > maxPlace {
		return 0, wrong(w.at, fmt.Sprintf("use at most %d", maxPlace), "%s %s is too far away", kind, shortened(w.text))
	}
	return n, nil
}

// takeLayer takes a layer's name off a plan's place.
func takeLayer(text string, all []word) ([]word, string) {
	n := len(all)
	switch {
	case n > 2 && all[n-2].text == "cycle":
		return all[n-2:], strings.TrimSpace(text[:all[n-2].at])
	case n > 3 && all[0].text == "cycle" && all[2].text == "of":
		return all[:2], strings.TrimSpace(text[all[3].at:])
	}
	return all, ""
}

// parseLength reads "2 realignments", "16 bars", "90 pulses", "1 return".
func parseLength(text string) (score.LengthRule, *slip) {
	all := words(text)
	hint := "write 2 realignments, 16 bars, 90 pulses or 1 return"
	if _, ok := whole(strings.Join(strings.Fields(text), "")); ok {
		hint = "say of what: " + shortened(strings.TrimSpace(text)) + " bars, pulses, realignments or returns"
	} else if len(all) == 2 && strings.HasPrefix(all[1].text, "measure") {
		hint = "write " + shortened(all[0].text) + " bars"
	}
	if len(all) != 2 {
		return score.LengthRule{}, wrong(0, hint, "%q is no length", shortened(text))
	}
	kinds := map[string]score.LengthKind{"realignment": score.Realignments, "bar": score.Bars, "pulse": score.Pulses, "return": score.Returns}
	kind, ok := kinds[strings.TrimSuffix(all[1].text, "s")]
	n, isNumber := whole(all[0].text)
	if !ok || !isNumber {
		return score.LengthRule{}, wrong(0, hint, "%q is no length", shortened(text))
	}
	if n == 0 || n > maxPlace {
		return score.LengthRule{}, wrong(all[0].at, fmt.Sprintf("write a number from 1 to %d", maxPlace), "a section cannot last %s %s", shortened(all[0].text), all[1].text)
	}
	return score.LengthRule{Kind: kind, N: n}, nil
}

// parseLoop reads "run", "cut every 6 bars", "restart at realignment".
func parseLoop(text string) (loop score.Loop, bars int, bad *slip) {
	s := strings.Join(strings.Fields(text), " ")
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
		if n, ok := whole(f[2]); ok && n > 0 && n <= 1_000_000 {
			return score.CutBars, int(n), nil
		}
	}
	return score.Run, 0, wrong(0, "write run, cut every 6 bars or restart at realignment", "%q is no way to loop", shortened(s))
}
