package report

import (
	"tieover/score"
	"tieover/score/analysis"
)

// met is when heads coincide, and whether a layer has left by then.
type met struct {
	score.Meeting
	over bool
}

func (j *facts) meeting(m score.Meeting, over bool) object { return line(j, meetingKeys, met{m, over}) }

// repeats reports whether the meeting has a period.
func (m met) repeats() bool { return m.Period != nil && !m.Never }

var meetingKeys = []field[met]{
	{"never", "the heads never coincide", func(_ *facts, m met) any { return m.Never }},
	{"apart", "then: how far apart they stay at the least", func(j *facts, m met) any { return unless(!m.Never, j.span(m.Apart)) }},
	{"walked", "found by stepping through cycles, not by arithmetic", func(_ *facts, m met) any { return m.Walked }},
	{"atStart", "they coincide at the start", func(_ *facts, m met) any { return m.Start }},
	{"lengths", "that were combined", func(j *facts, m met) any {
		var all []string
		for _, n := range m.Lengths {
			all = append(all, j.big(n))
		}
		return unless(all == nil, all)
	}},
	{"first", "the first time after the start", func(j *facts, m met) any { return j.optional(m.First) }},
	{"period", "after which the whole pattern of such moments repeats", func(j *facts, m met) any {
		if !m.repeats() {
			return absent{}
		}
		return j.big(m.Period)
	}},
	{"pulses", "the period in the section's pulse", func(j *facts, m met) any {
		if !m.repeats() {
			return absent{}
		}
		return ratio64(m.Period, j.s.Grid.Must(j.s.Pulse.Span()))
	}},
	{"bars", "the period in bars, where all are alike", func(j *facts, m met) any {
		if !m.repeats() || !j.s.Steady() {
			return absent{}
		}
		return ratio64(m.Period, j.s.Grid.Must(j.s.Meter[0].Span()))
	}},
	{"afterLeaving", "of a pair: one of the two has left before `first`", func(_ *facts, m met) any { return unless(!m.over, true) }},
}

var resultantKeys = []field[*analysis.Resultant]{
	{"generators", "how far apart the heads of each layer are, in pulses", func(_ *facts, r *analysis.Resultant) any { return r.Generators }},
	{"series", "durations until all coincide again", func(_ *facts, r *analysis.Resultant) any { return r.Series }},
	{"complementaryFactors", "of three or more: the least common cycle divided by each", func(_ *facts, r *analysis.Resultant) any { return unless(r.Factors == nil, r.Factors) }},
	{"complementarySeries", "the resultant of these", func(_ *facts, r *analysis.Resultant) any { return unless(r.Complement == nil, r.Complement) }},
	{"withFractioning", "of two: the resultant with fractioning (Schillinger 1946)", func(_ *facts, r *analysis.Resultant) any { return unless(r.Fractioned == nil, r.Fractioned) }},
}

var pairKeys = []field[analysis.Pair]{
	{"layers", "the names of both", func(j *facts, p analysis.Pair) any { return j.names([]int{p.A, p.B}) }},
	{"together", "meeting of both", func(j *facts, p analysis.Pair) any { return j.meeting(p.Together, p.Over) }},
	{"onBarline", "meeting of both and the barline", func(j *facts, p analysis.Pair) any { return j.meeting(p.OnBarline, p.OverOnBarline) }},
	{"coincidences", "moments at which both strike", func(_ *facts, p analysis.Pair) any { return p.Attacks }},
	{"drift", "of the second against the first", func(j *facts, p analysis.Pair) any { return j.drift(j.f.Layers[p.B].DriftAgainst(p.A), absent{}) }},
	{"reverseDrift", "of the first against the second", func(j *facts, p analysis.Pair) any { return j.drift(j.f.Layers[p.A].DriftAgainst(p.B), absent{}) }},
}

// drift sums up a drift; fewer than two heads have none.
func (j *facts) drift(d analysis.Drift, none any) any {
	if d.Steps == 0 {
		return none
	}
	return line(j, driftKeys, d)
}

var driftKeys = []field[analysis.Drift]{
	{"constant", "all steps are equal", func(_ *facts, d analysis.Drift) any { return d.Constant }},
	{"step", "from head to head, if constant; early is negative", func(j *facts, d analysis.Drift) any { return unless(!d.Constant, j.span(d.Step)) }},
	{"reference", "length of the bar or cycle", func(j *facts, d analysis.Drift) any { return unless(!d.Constant, j.span(d.Length)) }},
	{"home", "cycles until the place is the same again", func(_ *facts, d analysis.Drift) any { return unless(!d.Constant || d.Home == 0, d.Home) }},
	{"steps", "how many were looked at", func(_ *facts, d analysis.Drift) any { return d.Steps }},
	{"all", "these are all of the section", func(_ *facts, d analysis.Drift) any { return d.All }},
}

var alikeKeys = []field[analysis.Alike]{
	{"layers", "the names of both", func(j *facts, a analysis.Alike) any { return j.names([]int{a.A, a.B}) }},
	{"sharedSounds", "how many", func(_ *facts, a analysis.Alike) any { return a.Shared }},
	{"shift", "the second moved by it repeats the first most nearly; early is negative", func(j *facts, a analysis.Alike) any { return j.span(a.Shift) }},
	{"matches", "attacks that then agree", func(_ *facts, a analysis.Alike) any { return a.Matches }},
	{"attacks", "of each that were compared", func(_ *facts, a analysis.Alike) any { return []int{a.AttacksA, a.AttacksB} }},
	{"likeness", "twice the matches over the attacks of both, in percent", func(_ *facts, a analysis.Alike) any { return a.Likeness() }},
	{"easilyConfused", "75 percent and three attacks or more", func(_ *facts, a analysis.Alike) any { return a.Easily() }},
	{"over", "the stretch that was compared", func(j *facts, a analysis.Alike) any { return j.span(a.Window) }},
	{"wholePeriod", "that is the common period of both, taken round", func(_ *facts, a analysis.Alike) any { return a.Cyclic }},
	{"sameSide", "they are not set on opposite sides", func(_ *facts, a analysis.Alike) any { return a.Side }},
	{"sameTouch", "they have the same touches", func(_ *facts, a analysis.Alike) any { return a.Touch }},
	{"sameInstrument", "they have one instrument", func(_ *facts, a analysis.Alike) any { return a.Instrument }},
}

var colorKeys = []field[analysis.Color]{
	{"layer", "its name", func(j *facts, c analysis.Color) any { return j.name(c.Layer) }},
	{"pitches", "in the series (the color)", func(_ *facts, c analysis.Color) any { return c.Pitches }},
	{"attacks", "until the rhythm begins anew (the talea)", func(_ *facts, c analysis.Color) any { return c.Attacks }},
	{"rhythm", "how long that is", func(j *facts, c analysis.Color) any { return j.span(c.Rhythm) }},
	{"together", "attacks until both begin together again", func(_ *facts, c analysis.Color) any { return int(c.Together) }},
	{"colors", "rounds of the pitches until then", func(_ *facts, c analysis.Color) any { return int(c.Colors) }},
	{"taleae", "rounds of the rhythm until then", func(_ *facts, c analysis.Color) any { return int(c.Taleae) }},
	{"lasts", "how long that is", func(j *facts, c analysis.Color) any { return j.big(c.Lasts) }},
	{"restarts", "realignments start the series over", func(_ *facts, c analysis.Color) any { return c.Restarts }},
}

var cuttingKeys = []field[analysis.Cutting]{
	{"layer", "its name", func(j *facts, c analysis.Cutting) any { return j.name(c.Layer) }},
	{"times", "cuts inside a cycle", func(_ *facts, c analysis.Cutting) any { return c.Times }},
	{"kinds", "the different ones, at most 16", func(j *facts, c analysis.Cutting) any {
		all := []object{}
		for _, k := range c.Kinds {
			all = append(all, line(j, cutoffKeys, k))
		}
		return all
	}},
}

var cutoffKeys = []field[analysis.Cutoff]{
	{"times", "how often", func(_ *facts, c analysis.Cutoff) any { return c.Times }},
	{"first", "when for the first time", func(j *facts, c analysis.Cutoff) any { return j.span(c.First) }},
	{"missing", "what it leaves out of the cycle", func(j *facts, c analysis.Cutoff) any { return j.span(c.Missing) }},
	{"group", "in which the cycle stops, from 1 in played order", func(_ *facts, c analysis.Cutoff) any { return c.Group }},
	{"kept", "of that group", func(j *facts, c analysis.Cutoff) any { return j.span(c.Kept) }},
	{"of", "the length of that group", func(j *facts, c analysis.Cutoff) any { return j.span(c.Of) }},
	{"drift", "against the barline that it takes back; early is negative", func(j *facts, c analysis.Cutoff) any { return j.span(c.Drift) }},
}

func journeyKeys() []field[analysis.Journey] {
	return []field[analysis.Journey]{
		{"layer", "its name", func(j *facts, w analysis.Journey) any { return j.name(w.Layer) }},
		{"partner", "the layer that plays the same and stays, if any", func(j *facts, w analysis.Journey) any {
			if w.Partner == analysis.Barline {
				return absent{}
			}
			return j.name(w.Partner)
		}},
		{"by", "one step; early is negative", func(j *facts, w analysis.Journey) any { return j.span(w.By) }},
		{"after", "cycles between two steps", func(_ *facts, w analysis.Journey) any { return w.After }},
		{"stepsHome", "steps that bring it round", func(_ *facts, w analysis.Journey) any { return w.Steps }},
		{"steps", "list, see below", func(j *facts, w analysis.Journey) any {
			return linesOf(j, journeyStepKeys, w.Walk(j.s))
		}},
	}
}

var journeyStepKeys = []field[analysis.JourneyStep]{
	{"step", "steps since the start, which is 0", func(_ *facts, s analysis.JourneyStep) any { return s.Step }},
	{"start", "of its first cycle", func(j *facts, s analysis.JourneyStep) any { return j.span(s.Start) }},
	{"cycles", "in the section", func(_ *facts, s analysis.JourneyStep) any { return s.Cycles }},
	{"moved", "how far the layer has moved by then", func(j *facts, s analysis.JourneyStep) any { return j.span(s.Place) }},
	{"home", "at the place of the start", func(_ *facts, s analysis.JourneyStep) any { return s.Home }},
	{"attacks", "of the layer", func(_ *facts, s analysis.JourneyStep) any { return s.Attacks }},
	{"together", "of these, with the partner", func(_ *facts, s analysis.JourneyStep) any { return s.Together }},
}
