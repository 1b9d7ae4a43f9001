package report

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// inBar says how each layer moves against the bar: those that move alike in
// one breath, those that stay, those whose drift is not constant.
func (t *text) inBar() []string {
	var how []string
	who := map[string][]string{}
	var stay, vary, parts, turn []string
	for i, l := range t.f.Layers {
		name := t.s.Layers[i].Name
		d := l.DriftAgainst(analysis.Barline)
		switch {
		case d.Constant && d.Step != 0 && t.headMoves(i):
			turn = append(turn, fmt.Sprintf("the head of %s stands %s in each cycle", name, t.later(d, t.s.Layers[i].Pulse)))
		case d.Steps == 0 || t.travels(i) || t.s.Layers[i].Loop != score.Run:
		case !d.Constant:
			vary = append(vary, name)
		case d.Step == 0:
			stay = append(stay, name)
		default:
			by := t.later(d, t.s.Layers[i].Pulse)
			if who[by] == nil {
				how = append(how, by)
			}
			who[by] = append(who[by], name)
		}
	}
	for k, by := range how {
		names := shortened(who[by])
		for i := range names {
			names[i] = "of " + names[i]
		}
		part := beat.Listed(names, "and") + " " + by
		if k == 0 {
			part = fmt.Sprintf("each cycle %s begins %s than the one before", beat.Listed(names, "and"), by)
		}
		parts = append(parts, part)
	}
	var sentences []string
	if len(parts) > 0 {
		sentences = append(sentences, "In the bar, "+beat.Listed(parts, "and"))
	}
	if len(stay) > 0 {
		kept := fmt.Sprintf("%s %s", beat.Listed(shortened(stay), "and"), beat.Inflect(len(stay), "keeps its place", "keep their places"))
		if len(sentences) == 0 {
			kept += " in the bar"
		}
		sentences = append(sentences, kept)
	}
	sentences = append(sentences, shortened(turn)...)
	if len(vary) > 0 {
		sentences = append(sentences, fmt.Sprintf("the drift of %s against the bar is not constant", beat.Listed(shortened(vary), "and")))
	}
	if len(sentences) == 0 {
		return nil
	}
	return []string{capital(strings.Join(sentences, "; ")) + "."}
}

// capital begins a sentence.
func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// later says by how much each cycle begins later or earlier.
func (t *text) later(d analysis.Drift, p beat.Pulse) string {
	if 2*d.Step != d.Length {
		return t.lateness(d.Step, p)
	}
	half := "half a cycle"
	if d.Against == analysis.Barline {
		half = "half a bar"
	}
	length := strings.NewReplacer(" (", ", ", ")", "").Replace(t.both(d.Step, p))
	return fmt.Sprintf("%s (%s) later", half, length)
}

// travels reports whether a layer moves on by steps.
func (t *text) travels(layer int) bool {
	return slices.ContainsFunc(t.f.Journeys, func(j analysis.Journey) bool { return j.Layer == layer })
}

// heardAsOne says what the composite makes of the layers: how dense it is,
// where it thins out, and whether one player can play it.
func (t *text) heardAsOne() []string {
	c := t.f.Composite
	if c.Attacks == 0 {
		return []string{"Nobody strikes."}
	}
	density := digits(c.Most.Attacks) + " in every bar"
	if c.Fewest.Attacks != c.Most.Attacks {
		density = fmt.Sprintf("%d to %d in a bar: most first in bar %d, fewest first in bar %d",
			c.Fewest.Attacks, c.Most.Attacks, c.Most.Bar, c.Fewest.Bar)
	}
	sentences := []string{fmt.Sprintf("%s %s, %s.", t.thereAre(), count(c.Attacks, "attack"), density)}
	if len(t.s.Layers) > 1 {
		sentences = append(sentences, t.alone(c.Alone))
	}
	return sentences
}

func (t *text) thereAre() string {
	are := beat.Inflect(t.f.Composite.Attacks, "is", "are")
	if len(t.s.Layers) == 1 {
		return "There " + are
	}
	return "Heard as one there " + are
}

// alone says whether one player can play the composite.
func (t *text) alone(a analysis.Alone) string {
	closest := ""
	if a.Seconds != nil {
		closest = fmt.Sprintf(" (never closer than %s, %s)", t.part(t.s.Grid.Span(a.Closest)), seconds(a.Seconds))
	}
	switch ensemble := !t.rhythmOnly(); {
	case a.Rhythm && !ensemble:
		return fmt.Sprintf("One player can play all of that%s.", closest)
	case len(a.Can) > 0 && ensemble:
		return fmt.Sprintf("One player of the %s can play all of that%s.", t.s.Layers[a.Can[0]].Instrument.InWords(), closest)
	case a.Rhythm:
		return fmt.Sprintf("No player of these instruments can play all of that alone; one can play its rhythm%s.", closest)
	}
	return fmt.Sprintf("Nobody can play all of that alone, nor its rhythm: two attacks are only %s, %s, apart.",
		t.part(t.s.Grid.Span(a.Closest)), seconds(a.Seconds))
}

// rhythmOnly reports whether no layer has an instrument.
func (t *text) rhythmOnly() bool {
	return !slices.ContainsFunc(t.s.Layers, func(l *score.Layer) bool { return l.Instrument.Name != "rhythm" })
}

// seconds writes a duration to the hundredth, halves up.
func seconds(r *big.Rat) string {
	if r.Cmp(big.NewRat(1, 1)) == 0 {
		return "1 second"
	}
	return r.FloatString(2) + " seconds"
}
