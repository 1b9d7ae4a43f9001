package report

import (
	"slices"

	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// layerKeys are those of a layer of the section, by its index.
func layerKeys() []field[int] {
	known := func(j *facts, i int) analysis.Layer { return j.f.Layers[i] }
	return []field[int]{
		{"name", "of the layer", func(j *facts, i int) any { return j.name(i) }},
		{"pulse", "of the layer", func(j *facts, i int) any { return j.s.Layers[i].Pulse.String() }},
		{"cycleLength", "if all cycles are alike", func(j *facts, i int) any { return unless(known(j, i).Length == 0, j.span(known(j, i).Length)) }},
		{"attackPlaces", "`all` attacks, `offBeat`, `onBarline`, `onBeat` (another beat)", func(j *facts, i int) any {
			a := known(j, i).Attacks
			return object{{"all", a.All}, {"offBeat", a.OffBeat}, {"onBarline", a.OnBarline}, {"onBeat", a.OnBeat}}
		}},
		{"drift", "against the barline; null where there are fewer than two heads", func(j *facts, i int) any { return j.drift(known(j, i).DriftAgainst(analysis.Barline), nil) }},
		{"patterns", "list, see below", func(j *facts, i int) any { return lines(j, groupingKeys, known(j, i).Groups) }},
		{"rhythm", "the same for the attacks of the first cycle, where a box or figures make them others", func(j *facts, i int) any {
			if known(j, i).Rhythm == nil {
				return absent{}
			}
			return line(j, groupingKeys, *known(j, i).Rhythm)
		}},
		{"rhythmUnit", "what that counts", func(j *facts, i int) any {
			if known(j, i).Rhythm == nil {
				return absent{}
			}
			return j.span(known(j, i).Rhythm.Unit)
		}},
		{"heardAs", "list, see below", func(j *facts, i int) any {
			return listed(slices.Values(known(j, i).Hearings()), func(h analysis.Hearing) any {
				return inside(func() { fill(j, hearingKeys(), heard{i, h}) })
			})
		}},
		{"cycles", "list, see below; the stroke of a landing is no cycle", func(j *facts, i int) any {
			return each(func(yield func(any) bool) { j.cycles(i, yield) })
		}},
		{"attacks", "list, see below; the stroke of a landing too", func(j *facts, i int) any {
			return each(func(yield func(any) bool) {
				for t, a := range j.s.Attacks(i) {
					if !yield(line(j, attackKeys, attack{t, a})) {
						return
					}
				}
			})
		}},
	}
}

type attack struct {
	at beat.Time
	*score.Attack
}

var attackKeys = join(moment("onset", func(a attack) beat.Time { return a.at }), []field[attack]{
	{"length", "how long it sounds", func(j *facts, a attack) any { return j.span(a.Length) }},
	{"pitches", "as the spec has them", func(_ *facts, a attack) any {
		pitches := []string{}
		for _, tone := range a.Tones {
			if tone.IsPitched() {
				pitches = append(pitches, tone.String())
			}
		}
		return pitches
	}},
	{"accent", "it is accented", func(_ *facts, a attack) any { return a.Accent }},
})

// driftedCycle is a cycle with its drift against the barline and the layers of
// the realigning set; other pairs are summed up in "pairs".
type driftedCycle struct {
	*score.Cycle
	barline any
	layers  object
}

func (j *facts) cycles(layer int, yield func(any) bool) {
	if j.s.Layers[layer].Line != nil {
		return
	}
	barline := analysis.Track(j.s, analysis.Barline)
	var others []int
	var tracks []*analysis.Tracker
	for _, o := range j.s.Set {
		if o != layer {
			t := analysis.Track(j.s, o)
			defer t.Stop()
			others, tracks = append(others, o), append(tracks, t)
		}
	}
	for c := range j.s.Cycles(layer) {
		if c.Landing {
			continue
		}
		d := driftedCycle{Cycle: c, layers: object{}}
		for k, t := range tracks {
			if s, ok := t.Step(c); ok {
				d.layers = append(d.layers, member{j.name(others[k]), line(j, stepKeys, s)})
			}
		}
		if s, ok := barline.Step(c); ok {
			d.barline = line(j, stepKeys, s)
		}
		if !yield(line(j, cycleKeys, d)) {
			return
		}
	}
}

var stepKeys = []field[analysis.Step]{
	{"place", "of the head, from the start of the bar or cycle it falls in", func(j *facts, s analysis.Step) any { return j.span(s.Place) }},
	{"step", "since the head before; null for the first", func(j *facts, s analysis.Step) any {
		if s.First {
			return nil
		}
		return j.span(s.Step)
	}},
	{"total", "all steps so far", func(j *facts, s analysis.Step) any { return j.span(s.Total) }},
}

var cycleKeys = join([]field[driftedCycle]{
	{"index", "since the entry", func(_ *facts, c driftedCycle) any { return c.Index }},
	{"number", "since the last realignment", func(_ *facts, c driftedCycle) any { return c.Number }},
	{"start", "when; negative if begun before the section", func(j *facts, c driftedCycle) any { return j.span(c.Start) }},
}, at(func(c driftedCycle) (beat.Time, bool) { return c.Start, c.Start >= 0 }), []field[driftedCycle]{
	{"head", "when group 1 begins", func(j *facts, c driftedCycle) any { return j.span(c.Start + c.Head) }},
	{"length", "of the whole cycle", func(j *facts, c driftedCycle) any { return j.span(c.Length) }},
	{"sounds", "how much of it there is", func(j *facts, c driftedCycle) any { return j.span(c.Sounds) }},
	{"groups", "in played order, in pulses", func(_ *facts, c driftedCycle) any {
		sizes := make([]int, 0, len(c.Groups))
		for _, g := range c.Groups {
			sizes = append(sizes, g.Size)
		}
		return sizes
	}},
	{"silentGroups", "which of them are rests, from 1", func(_ *facts, c driftedCycle) any {
		var silent []int
		for i, g := range c.Groups {
			if g.Blank {
				silent = append(silent, i+1)
			}
		}
		return unless(silent == nil, silent)
	}},
	{"complete", "it is not cut", func(_ *facts, c driftedCycle) any { return c.Cut == score.NotCut }},
	{"cut", "by what: loop, leaves, end", func(_ *facts, c driftedCycle) any { return unless(c.Cut == score.NotCut, c.Cut.String()) }},
	{"drift", "`barline`, and `layers` of the realigning set by name", func(_ *facts, c driftedCycle) any { return object{{"barline", c.barline}, {"layers", c.layers}} }},
})

func hearingKeys() []field[heard] {
	return []field[heard]{
		{"longGroupsFirst", "it begins with the long groups", func(_ *facts, h heard) any { return h.LongFirst }},
		{"patterns", "named ones, with `name` and `source`", func(_ *facts, h heard) any {
			all := []object{}
			for _, p := range h.Patterns {
				all = append(all, object{{"name", p.Name}, {"source", p.Source.Full}})
			}
			return all
		}},
		{"groups", "as they are heard", func(_ *facts, h heard) any { return h.Groups }},
		{"unit", "what these count", func(j *facts, h heard) any { return j.span(h.Unit) }},
		{"moves", "how far the felt downbeat is from the written one, in units; later is positive", func(_ *facts, h heard) any { return h.Turn }},
		{"movesBy", "the same as a length", func(j *facts, h heard) any { return j.span(beat.Time(h.Turn) * h.Unit) }},
		{"realignments", "as long as the layer plays, see below", func(j *facts, h heard) any {
			return linesOf(j, feltKeys, analysis.FeltRealignments(j.s, h.layer, h.Hearing))
		}},
	}
}

var feltKeys = []field[analysis.Felt]{
	{"index", "of the realignment", func(_ *facts, f analysis.Felt) any { return f.Index }},
	{"pulse", "of the heard cycle, from 1", func(_ *facts, f analysis.Felt) any { return f.Pulse }},
	{"onPulse", "at its start", func(_ *facts, f analysis.Felt) any { return f.OnPulse }},
	{"group", "of the heard groups, from 1", func(_ *facts, f analysis.Felt) any { return f.Group }},
	{"onGroup", "at its start", func(_ *facts, f analysis.Felt) any { return f.OnGroup }},
	{"beforeFeltDownbeat", "no bar is felt yet", func(_ *facts, f analysis.Felt) any { return f.Early }},
	{"bar", "from the first felt downbeat that sounds, where all bars are alike", func(_ *facts, f analysis.Felt) any { return unless(!f.Metric, f.Where.Bar) }},
	{"beat", "from 1", func(_ *facts, f analysis.Felt) any { return unless(!f.Metric, f.Where.Beat) }},
	{"past", "how long after that beat", func(_ *facts, f analysis.Felt) any { return unless(!f.Metric, f.Where.Past.String()) }},
	{"onBeat", "it seems to be on a beat", func(_ *facts, f analysis.Felt) any { return unless(!f.Metric, f.OnBeat) }},
	{"onBarline", "it seems to be on a barline", func(_ *facts, f analysis.Felt) any { return unless(!f.Metric, f.Barline) }},
}
