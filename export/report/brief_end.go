package report

import (
	"fmt"
	"slices"
	"strings"

	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// changes says what grows, moves or changes on the way.
func (t *text) changes() []string {
	var sentences []string
	for i, l := range t.s.Layers {
		if len(l.Process) == 0 || t.travels(i) {
			continue
		}
		how := each(l.Process, func(p score.Process) string { return t.process(l, p) })
		until := ""
		if l.Until == score.UntilRealignment {
			until = ", until the next realignment"
		}
		sentences = append(sentences, fmt.Sprintf("%s changes: %s%s.", l.Name, beat.Listed(how, "and"), until))
	}
	sentences = append(shortened(sentences), t.seriesChanges()...)
	sentences = append(sentences, t.colors()...)
	var meters, tempos, keys, held []string
	for _, e := range t.s.Plan {
		if e.Fermata {
			held = append(held, t.at(e.Time))
		}
		if e.Meter != nil && e.Time > 0 {
			meters = append(meters, fmt.Sprintf("%s (%s)", t.at(e.Time), e.Meter))
		}
	}
	for _, m := range t.s.Tempos() {
		if m.Time > 0 {
			tempos = append(tempos, fmt.Sprintf("%s (%s)", t.at(m.Time), t.tempoMark(m)))
		}
	}
	for _, k := range t.s.Keys()[1:] {
		keys = append(keys, fmt.Sprintf("%s (%s)", t.at(k.Time), k.Key))
	}
	for _, change := range []struct {
		what  string
		where []string
	}{
		{"The meter changes", meters}, {"The tempo changes", tempos}, {"A fermata makes the beat twice as long", held},
		{"The key changes", keys},
	} {
		if len(change.where) > 0 {
			sentences = append(sentences, fmt.Sprintf("%s at %s.", change.what, beat.Listed(shortened(change.where), "and")))
		}
	}
	return sentences
}

// seriesChanges says which layers take other pitches at realignments.
func (t *text) seriesChanges() []string {
	var sentences []string
	first := map[int]bool{}
	for c := range t.s.SeriesChanges() {
		if first[c.Layer] {
			continue
		}
		first[c.Layer] = true
		l := t.s.Layers[c.Layer]
		sentences = append(sentences, fmt.Sprintf("%s has %d series of pitches, the next from each realignment on (first at %s).", l.Name, len(l.Series), t.at(c.Time)))
		if len(sentences) == len(t.s.Layers) || len(sentences) == mostNamed {
			break
		}
	}
	return sentences
}

// at says a moment shortly: "bar 9", "bar 9 beat 2".
func (t *text) at(m beat.Time) string { return strings.TrimSuffix(t.s.Where(m).String(), " beat 1") }

// colors says which pitch series run on over the rhythm, and when both are
// together again.
func (t *text) colors() []string {
	sentences := shortened(each(t.f.Colors, t.color))
	if r := t.f.Return; r != nil && len(sentences) > 0 {
		sentences = append(sentences, fmt.Sprintf("Everything stands as it began (a return) after %s.", t.long(r)))
	}
	return sentences
}

func (t *text) color(c analysis.Color) string {
	over := fmt.Sprintf("%s has %s for %s", t.s.Layers[c.Layer].Name, count(c.Pitches, "pitch"), count(c.Attacks, "attack"))
	sentence := fmt.Sprintf("%s: both begin together again after %s, that is %s of the pitches and %s of the rhythm, %s", over,
		count(int(c.Together), "attack"), count(int(c.Colors), "round"), digits(int(c.Taleae)), t.long(c.Lasts))
	if c.Restarts {
		sentence += ", unless a realignment starts the pitches over before"
	}
	return sentence + "."
}

// cutting says which loops are cut and what that makes of them.
func (t *text) cutting() []string { return each(t.f.Cuttings, t.cuts) }

func (t *text) cuts(c analysis.Cutting) string {
	l := t.s.Layers[c.Layer]
	known := slices.Contains(t.cutLayers(), c.Layer) // its rule is said with the meetings
	rule := l.Name + " starts over at each realignment"
	switch {
	case known:
		rule = l.Name + " is cut"
	case l.Loop == score.CutBars && l.CutEvery == 1:
		rule = l.Name + " starts over in every bar"
	case l.Loop == score.CutBars:
		rule = l.Name + " starts over every " + count(l.CutEvery, "bar")
	}
	if c.Times == 0 {
		return rule + ", but never inside a cycle."
	}
	first := c.Kinds[0]
	leaves := fmt.Sprintf("leaves out the last %s of a cycle%s.", t.both(first.Missing, l.Pulse), t.undone(l, first.Drift))
	switch {
	case first.Times < c.Times:
		return fmt.Sprintf("%s: %s, the first of which %s", rule, count(c.Times, "cut"), leaves)
	case known:
		return fmt.Sprintf("Each cut of %s %s", l.Name, leaves)
	}
	return rule + ": each cut " + leaves
}

// undone says the drift that a cut takes back.
func (t *text) undone(l *score.Layer, drift beat.Time) string {
	if drift == 0 {
		return ""
	}
	return fmt.Sprintf(" and takes back that it began %s", asAdverb(t.lateness(drift, l.Pulse)))
}

// journeys says how each layer moves that does so by steps.
func (t *text) journeys() []string {
	var sentences []string
	for _, j := range t.f.Journeys {
		sentences = append(sentences, t.journey(j)...)
	}
	return sentences
}

func (t *text) journey(j analysis.Journey) []string {
	l := t.s.Layers[j.Layer]
	past, way := j.By, "later"
	if past < 0 {
		past, way = -past, "earlier"
	}
	from, with := "where it began", ""
	if j.Partner != analysis.Barline {
		from, with = "in unison with "+t.s.Layers[j.Partner].Name+" again", " against "+t.s.Layers[j.Partner].Name
	}
	every := "after every cycle"
	if j.After > 1 {
		every = fmt.Sprintf("after every %d cycles", j.After)
	}
	sentences := []string{fmt.Sprintf("%s moves %s %s%s %s; %s bring it round, %s, after %s.", l.Name, t.both(past, l.Pulse), way, with, every,
		count(j.Steps, "step"), from, count(j.Steps*j.After, "cycle"))}
	last, home := analysis.JourneyStep{}, []string(nil)
	for step := range j.Walk(t.s) {
		last = step
		if step.Home && step.Step > 0 {
			home = append(home, t.at(step.Start))
		}
	}
	switch {
	case len(home) > 0:
		sentences = append(sentences, fmt.Sprintf("It is there at %s.", beat.Listed(shortened(home), "and")))
	default:
		sentences = append(sentences, fmt.Sprintf("The section takes it %d of %s.", last.Step, count(j.Steps, "step")))
	}
	return sentences
}

// mistaken says what the ear may take for what.
func (t *text) mistaken() []string {
	var sentences []string
	for _, l := range t.f.Layers {
		for _, h := range l.Hearings() {
			sentences = append(sentences, t.hears(h))
		}
	}
	for _, a := range t.f.Alike {
		if a.Easily() {
			sentences = append(sentences, t.confused(a))
		}
	}
	return shortened(sentences)
}

func (t *text) hears(h analysis.Hearing) string {
	sentence := t.heardAs(h) + ", begun " + t.moved(h)
	var places feltPlaces
	for f := range analysis.FeltRealignments(t.s, h) {
		places.add(f)
	}
	switch first := places.first; {
	case places.count == 0:
		return sentence + "."
	case !places.alike:
		return sentence + "; the realignments then fall in different places of it."
	case first.OnGroup:
		return fmt.Sprintf("%s; every realignment then falls where its group %d begins.", sentence, first.Group)
	default:
		return fmt.Sprintf("%s; every realignment then falls on its pulse %d, in group %d.", sentence, first.Pulse, first.Group)
	}
}

// confused says that two layers are easily taken for each other.
func (t *text) confused(a analysis.Alike) string {
	return fmt.Sprintf("%s and %s are easily confused: they %s, and %s.", t.s.Layers[a.A].Name, t.s.Layers[a.B].Name, t.share(a), t.echo(a))
}

// nearest says how nearly one of two layers that share sounds repeats the other.
func (t *text) nearest(a analysis.Alike) string {
	return fmt.Sprintf("%s and %s %s; at the most alike, %s.", t.s.Layers[a.A].Name, t.s.Layers[a.B].Name, t.share(a), t.echo(a))
}

func (t *text) share(a analysis.Alike) string {
	switch {
	case a.Shared > 0 && t.s.Layers[a.A].Instrument.IsUnpitched():
		return "have the same sound"
	case a.Shared > 0:
		return "share " + count(a.Shared, "pitch")
	}
	return "share a register"
}

// echo says at which shift one repeats the other.
func (t *text) echo(a analysis.Alike) string {
	one, other := t.s.Layers[a.A], t.s.Layers[a.B]
	if a.Shift == 0 {
		return fmt.Sprintf("they strike together at %d of %s", a.Matches, t.attacksOf(a))
	}
	return fmt.Sprintf("%s repeats %s %s, at %d of %s", other.Name, one.Name, t.lateness(-a.Shift, other.Pulse), a.Matches, t.attacksOf(a))
}

func (t *text) attacksOf(a analysis.Alike) string {
	if a.AttacksA == a.AttacksB {
		return count(a.AttacksA, "attack")
	}
	return fmt.Sprintf("%s and %s attacks", digits(a.AttacksA), digits(a.AttacksB))
}

// closes says how the section ends.
func (t *text) closes() []string {
	var sentences, cut []string
	for i, l := range t.f.Layers {
		if e := l.End; t.s.Layers[i].Line == nil && e.Cycle > 0 && !e.Complete && e.By == score.CutByEnd {
			cut = append(cut, fmt.Sprintf("%s %s short", t.s.Layers[i].Name, t.both(e.Missing, t.s.Layers[i].Pulse)))
		}
	}
	if len(cut) > 0 {
		sentences = append(sentences, fmt.Sprintf("The end cuts %s.", beat.Listed(shortened(cut), "and")))
	}
	switch t.s.End {
	case score.Land:
		sentences = append(sentences, t.landed())
	case score.Repeat:
		from := "its start"
		if t.s.Opening() < 0 { // the pickup is played once
			from = "bar 1"
		}
		again := "Then the section is repeated from " + from + "."
		if n := t.s.Played(); n > 2 {
			again = fmt.Sprintf("The section is played %d times, from %s each time.", n, from)
		}
		sentences = append(sentences, again)
	}
	return append(sentences, t.cleanly())
}
