package facts

import (
	"tieover/score"
	"tieover/score/analysis"
)

// meeting says when heads coincide; over says of a pair that one has left by then.
func (j *section) meeting(m score.Meeting, over bool) object {
	var lengths []any
	for _, n := range m.Lengths {
		lengths = append(lengths, j.ticks(n))
	}
	var period, pulses, bars any = absent{}, absent{}, absent{}
	if m.Period != nil && !m.Never {
		period, pulses = j.ticks(m.Period), fraction(m.Period, j.s.Grid.Must(j.s.Pulse.Span()))
		if j.s.Steady() {
			bars = fraction(m.Period, j.s.Grid.Must(j.s.Meter[0].Span()))
		}
	}
	return object{
		{"never", "the heads never coincide", m.Never},
		{"apart", "then: how far apart they stay at the least", unless(!m.Never, m.Apart)},
		{"walked", "found by stepping through cycles, not by arithmetic", m.Walked},
		{"atStart", "they coincide at the start", m.Start},
		{"lengths", "that were combined", unless(lengths == nil, lengths)},
		{"first", "the first time after the start", j.ticks(m.First)},
		{"period", "after which the whole pattern of such moments repeats", period},
		{"pulses", "the period in the section's pulse", pulses},
		{"bars", "the period in bars, where all are alike", bars},
		{"afterLeaving", "of a pair: one of the two has left before `first`", unless(!over, true)},
	}
}

func (j *section) uncut() any {
	if m, ok := j.s.MeetUncut(); ok && len(j.f.Cuttings) > 0 {
		return j.meeting(m, false)
	}
	return absent{}
}

func (j *section) resultant(r *analysis.Resultant) any {
	if r == nil {
		return absent{}
	}
	return object{
		{"generators", "how far apart the heads of each layer are, in pulses", r.Generators},
		{"series", "durations until all coincide again", r.Series},
		{"complementaryFactors", "of three or more: the least common cycle divided by each", unless(r.Factors == nil, r.Factors)},
		{"complementarySeries", "the resultant of these", unless(r.Complement == nil, r.Complement)},
		{"withFractioning", "of two: the resultant with fractioning (Schillinger 1946)", unless(r.Fractioned == nil, r.Fractioned)},
	}
}

func (j *section) pair(p analysis.Pair) object {
	return object{
		{"layers", "the names of both", j.names([]int{p.A, p.B})},
		{"together", "meeting of both", j.meeting(p.Together, p.Over)},
		{"onBarline", "meeting of both and the barline", j.meeting(p.OnBarline, p.OverOnBarline)},
		{"coincidences", "moments at which both strike", p.Attacks},
		{"drift", "of the second against the first", j.drift(j.f.Layers[p.B].DriftAgainst(p.A), absent{})},
		{"reverseDrift", "of the first against the second", j.drift(j.f.Layers[p.A].DriftAgainst(p.B), absent{})},
	}
}

// drift sums up a drift; fewer than two heads have none.
func (j *section) drift(d analysis.Drift, none any) any {
	if d.Steps == 0 {
		return none
	}
	return object{
		{"constant", "all steps are equal", d.Constant},
		{"step", "from head to head, if constant; early is negative", unless(!d.Constant, d.Step)},
		{"reference", "length of the bar or cycle", unless(!d.Constant, d.Length)},
		{"home", "cycles until the place is the same again", unless(!d.Constant || d.Home == 0, d.Home)},
		{"steps", "how many were looked at", d.Steps},
		{"all", "these are all of the section", d.All},
	}
}

func (j *section) alike(a analysis.Alike) object {
	return object{
		{"layers", "the names of both", j.names([]int{a.A, a.B})},
		{"sharedSounds", "how many", a.Shared},
		{"shift", "the second moved by it repeats the first most nearly; early is negative", a.Shift},
		{"matches", "attacks that then agree", a.Matches},
		{"attacks", "of each that were compared", []int{a.AttacksA, a.AttacksB}},
		{"likeness", "twice the matches over the attacks of both, in percent", a.Likeness()},
		{"easilyConfused", "75 percent and three attacks or more", a.Easily()},
		{"over", "the stretch that was compared", a.Window},
		{"wholePeriod", "that is the common period of both, taken round", a.Cyclic},
		{"sameSide", "they are not set on opposite sides", a.Side},
		{"sameTouch", "they have the same touches", a.Touch},
		{"sameInstrument", "they have one instrument", a.Instrument},
	}
}

func (j *section) color(c analysis.Color) object {
	return object{
		{"layer", "its name", j.name(c.Layer)},
		{"pitches", "in the series (the color)", c.Pitches},
		{"attacks", "until the rhythm begins anew (the talea)", c.Attacks},
		{"rhythm", "how long that is", c.Rhythm},
		{"together", "attacks until both begin together again", c.Together},
		{"colors", "rounds of the pitches until then", c.Colors},
		{"taleae", "rounds of the rhythm until then", c.Taleae},
		{"lasts", "how long that is", j.ticks(c.Lasts)},
		{"restarts", "realignments start the series over", c.Restarts},
	}
}

func (j *section) cutting(c analysis.Cutting) object {
	return object{
		{"layer", "its name", j.name(c.Layer)},
		{"times", "cuts inside a cycle", c.Times},
		{"kinds", "the different ones, at most 16", inLine(c.Kinds, j.cutoff)},
	}
}

func (j *section) cutoff(c analysis.Cutoff) object {
	return object{
		{"times", "how often", c.Times},
		{"first", "when for the first time", c.First},
		{"missing", "what it leaves out of the cycle", c.Missing},
		{"group", "in which the cycle stops, from 1 in played order", c.Group},
		{"kept", "of that group", c.Kept},
		{"of", "the length of that group", c.Of},
		{"drift", "against the barline that it takes back; early is negative", c.Drift},
	}
}

func (j *section) journey(w analysis.Journey) block {
	var partner any = absent{}
	if w.Partner != analysis.Barline {
		partner = j.name(w.Partner)
	}
	return block{
		{"layer", "its name", j.name(w.Layer)},
		{"partner", "the layer that plays the same and stays, if any", partner},
		{"by", "one step; early is negative", w.By},
		{"after", "cycles between two steps", w.After},
		{"stepsHome", "steps that bring it round", w.Steps},
		{"steps", "list, see below", listOf(w.Walk(j.s), j.journeyStep)},
	}
}

func (j *section) journeyStep(s analysis.JourneyStep) object {
	return object{
		{"step", "steps since the start, which is 0", s.Step},
		{"start", "of its first cycle", s.Start},
		{"cycles", "in the section", s.Cycles},
		{"moved", "how far the layer has moved by then", s.Place},
		{"home", "at the place of the start", s.Home},
		{"attacks", "of the layer", s.Attacks},
		{"together", "of these, with the partner", s.Together},
	}
}
