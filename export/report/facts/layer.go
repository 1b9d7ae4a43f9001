package facts

import (
	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/analysis/timeline"
	"tieover/score/beat"
)

func (j *section) layer(l analysis.Layer) block {
	i := l.Index
	var rhythm, rhythmUnit any = absent{}, absent{}
	if l.Rhythm != nil {
		rhythm, rhythmUnit = j.grouping(*l.Rhythm), l.Rhythm.Unit
	}
	return block{
		{"name", "of the layer", j.name(i)},
		{"pulse", "of the layer", j.s.Layers[i].Pulse},
		{"cycleLength", "if all cycles are alike", unless(l.Length == 0, l.Length)},
		{"attackPlaces", "`all` attacks, `offBeat`, `onBarline`, `onBeat` (another beat)", places(l.Attacks)},
		{"drift", "against the barline; null where there are fewer than two heads", j.drift(l.DriftAgainst(analysis.Barline), nil)},
		{"patterns", "list, see below", lines(l.Groups, j.grouping)},
		{"rhythm", "the same for the attacks of the first cycle, where a box or figures make them others", rhythm},
		{"rhythmUnit", "what that counts", rhythmUnit},
		{"heardAs", "list, see below", lines(l.Hearings(), j.hearing)},
		{"cycles", "list, see below; the stroke of a landing is no cycle", j.cycles(i)},
		{"attacks", "list, see below; the stroke of a landing too", j.attacks(i)},
	}
}

func places(p analysis.Places) object {
	return object{{"all", "", p.All}, {"offBeat", "", p.OffBeat}, {"onBarline", "", p.OnBarline}, {"onBeat", "", p.OnBeat}}
}

func (j *section) attacks(layer int) list {
	return func(yield func(any) bool) {
		for t, a := range j.s.Attacks(layer) {
			if !yield(j.attack(t, a)) {
				return
			}
		}
	}
}

func (j *section) attack(t beat.Time, a *score.Attack) object {
	pitches := []string{}
	for _, tone := range a.Tones {
		if tone.IsPitched() {
			pitches = append(pitches, tone.String())
		}
	}
	return j.at("onset", t, object{
		{"length", "how long it sounds", a.Length},
		{"pitches", "as the spec has them", pitches},
		{"accent", "it is accented", a.Accent},
	})
}

// cycles are those of a layer with their drift against the barline and the
// layers of the realigning set; other pairs are summed up in "pairs".
func (j *section) cycles(layer int) list {
	return func(yield func(any) bool) {
		if j.s.Layers[layer].Line != nil {
			return
		}
		barline := analysis.Track(j.s, analysis.Barline)
		defer barline.Stop()
		type other struct {
			name string
			*analysis.Tracker
		}
		var others []other
		for _, o := range j.s.Set {
			if o != layer {
				track := analysis.Track(j.s, o)
				defer track.Stop()
				others = append(others, other{j.name(o), track})
			}
		}
		for c := range j.s.Cycles(layer) {
			if c.Landing {
				continue
			}
			var against any // the barline
			if s, ok := barline.Step(c); ok {
				against = step(s)
			}
			layers := object{}
			for _, o := range others {
				if s, ok := o.Step(c); ok {
					layers = append(layers, field{o.name, "", step(s)})
				}
			}
			drift := object{{"barline", "", against}, {"layers", "", layers}}
			if !yield(j.cycle(c, drift)) {
				return
			}
		}
	}
}

// step is how far a head has moved.
func step(s analysis.Step) object {
	return object{
		{"place", "of the head, from the start of the bar or cycle it falls in", s.Place},
		{"step", "since the head before; null for the first", nullIf(s.First, s.Step)},
		{"total", "all steps so far", s.Total},
	}
}

func (j *section) cycle(c *score.Cycle, drift object) object {
	sizes := make([]int, len(c.Groups))
	var silent []int
	for i, g := range c.Groups {
		sizes[i] = g.Size
		if g.Blank {
			silent = append(silent, i+1)
		}
	}
	place := j.placed(max(c.Start, 0))
	if c.Start < 0 {
		place = nil
	}
	return join(object{
		{"index", "since the entry", c.Index},
		{"number", "since the last realignment", c.Number},
		{"start", "when; negative if begun before the section", c.Start},
	}, place, object{
		{"head", "when group 1 begins; in a cycle played backwards, the group before it", c.Start + c.Head},
		{"length", "of the whole cycle", c.Length},
		{"sounds", "how much of it there is", c.Sounds},
		{"groups", "in played order, in pulses", sizes},
		{"silentGroups", "which of them are rests, from 1", unless(silent == nil, silent)},
		{"complete", "it is not cut", c.Cut == score.NotCut},
		{"cut", "by what: loop, leaves, end", unless(c.Cut == score.NotCut, c.Cut)},
		{"drift", "`barline`, and `layers` of the realigning set by name", drift},
	})
}

func (j *section) hearing(h analysis.Hearing) block {
	named := func(p timeline.Pattern) object { return object{{"name", "", p.Name}, {"source", "", p.Source.Full}} }
	return block{
		{"longGroupsFirst", "it begins with the long groups", h.LongFirst},
		{"patterns", "named ones, with `name` and `source`", inLine(h.Patterns, named)},
		{"groups", "as they are heard", h.Groups},
		{"unit", "what these count", h.Unit},
		{"moves", "how far the felt downbeat is from the written one, in units; later is positive", h.Turn},
		{"movesBy", "the same as a length", beat.Time(h.Turn) * h.Unit},
		{"realignments", "as long as the layer plays, see below", listOf(analysis.FeltRealignments(j.s, h), felt)},
	}
}

func felt(f analysis.Felt) object {
	return object{
		{"index", "of the realignment", f.Index},
		{"pulse", "of the heard cycle, from 1", f.Pulse},
		{"onPulse", "at its start", f.OnPulse},
		{"group", "of the heard groups, from 1", f.Group},
		{"onGroup", "at its start", f.OnGroup},
		{"beforeFeltDownbeat", "no bar is felt yet", f.Early},
		{"bar", "from the first felt downbeat that sounds, where all bars are alike", unless(!f.Metric, f.Where.Bar)},
		{"beat", "from 1", unless(!f.Metric, f.Where.Beat)},
		{"past", "how long after that beat", unless(!f.Metric, f.Where.Past)},
		{"onBeat", "it seems to be on a beat", unless(!f.Metric, f.OnBeat)},
		{"onBarline", "it seems to be on a barline", unless(!f.Metric, f.Barline)},
	}
}
