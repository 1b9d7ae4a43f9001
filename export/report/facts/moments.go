package facts

import (
	"slices"

	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

func (j *section) tempo(m score.TempoAt) object {
	return j.at("time", m.Time, object{
		{"quarters", "a minute", m.Tempo.Quarters},
		{"tempoBeat", "the note value as printed", m.Tempo.Beat},
		{"rate", "of these a minute, as printed", m.Tempo.Rate},
		{"words", "printed with it, or alone", unless(m.Tempo.Words == "", m.Tempo.Words)},
		{"until", "of rit. and accel.: when it comes to `quarters`", unless(!m.Tempo.IsGradual(), m.Until)},
	})
}

func (j *section) speed(v score.Speed) object {
	return object{
		{"time", "from here on, from the section's start", v.Time},
		{"quarters", "a minute", v.Quarters},
	}
}

func (j *section) realignment(r score.Realignment) object {
	kind := "natural"
	if r.Forced() {
		kind = "forced"
	}
	cycles := map[string]int{}
	for i, number := range r.Cycles {
		cycles[j.name(j.s.Set[i])] = number
	}
	return join(object{
		{"index", "0 is the start", r.Index},
		{"label", "as printed, if it is", unless(r.Label == "", r.Label)},
		{"kind", "natural, or forced by a cut", kind},
		{"cut", "forced: layers that are cut there inside a cycle", unless(!r.Forced(), j.names(r.Cut))},
		{"marked", "the score prints its label", r.Label != ""},
	}, j.at("time", r.Time, object{
		{"onBarline", "it is on a barline", r.OnBarline},
		{"seconds", "an exact fraction", j.time.At(r.Time)},
		{"cycles", "which cycle begins, by name of the layer", cycles},
		{"silent", "layers whose head is a rest", unless(len(r.Silent) == 0, j.names(r.Silent))},
	}))
}

func (j *section) aside(t beat.Time) object { return j.at("time", t, nil) }

func (j *section) moment(m analysis.Moment) object {
	return j.at("onset", m.Time, object{
		{"length", "to the next attack of anybody", m.Length},
		{"layers", "who strikes", j.names(m.Layers)},
		{"pitches", "from the lowest up", unless(len(m.Tones) == 0, analysis.Ascending(m.Tones))},
	})
}

func perBar(b analysis.PerBar) object { return object{{"attacks", "", b.Attacks}, {"bar", "", b.Bar}} }

func (j *section) alone(a analysis.Alone) object {
	instruments := make([]string, len(a.Can))
	for i, l := range a.Can {
		instruments[i] = j.s.Layers[l].Instrument.Name
	}
	return object{
		{"instruments", "of the section, each of which could play everything alone", instruments},
		{"rhythm", "two hands could strike the rhythm without its sounds", a.Rhythm},
		{"closest", "the two attacks that follow each other soonest: how far apart", unless(a.Seconds == nil, a.Closest)},
		{"seconds", "how long that is", known(a.Seconds)},
	}
}

// ends says how the last cycles of the layers that have any end.
func (j *section) ends() list {
	layers := slices.DeleteFunc(slices.Clone(j.f.Layers), func(l analysis.Layer) bool {
		return j.s.Layers[l.Index].Line != nil || l.End.Cycle == 0
	})
	return lines(layers, j.ending)
}

func (j *section) ending(l analysis.Layer) object {
	e := l.End
	return object{
		{"layer", "its name", j.name(l.Index)},
		{"cycle", "the last one", e.Cycle},
		{"complete", "it is whole", e.Complete},
		{"at", "when it stops", e.At},
		{"cut", "by what: loop, leaves, end", unless(e.Complete, e.By)},
		{"missing", "of the cycle, if it is cut", unless(e.Complete || e.Missing == 0, e.Missing)},
		{"group", "in which it stops, from 1 in played order", unless(e.Complete || e.Group == 0, e.Group)},
		{"kept", "of that group", unless(e.Complete, e.Kept)},
		{"of", "the length of that group", unless(e.Complete, e.Of)},
	}
}

func cleanEnd(c analysis.Clean) any {
	return nullIf(!c.Known, object{{"bar", "", c.Bar}, {"bars", "", c.Bars}, {"time", "", c.At}})
}

func (j *section) barring(b analysis.Barring) object {
	return object{
		{"meter", "or meters by turns", b.Meter},
		{"ties", "over barlines", b.Ties},
		{"groupsBroken", "groups that a barline cuts", b.Broken},
		{"meterChanges", "how many", b.Changes},
		{"bars", "how many", b.Bars},
		{"offBeatEntries", "cycles that begin off the beat", b.OffBeat},
		{"from", "where the meter comes from", b.From},
		{"over", "the stretch that was counted", j.f.Window.Length},
	}
}

func (j *section) pivot(p analysis.Pivot) object {
	return object{
		{"played", "what is played already", p.What},
		{"quarters", "a minute, if that becomes the quarter", p.Quarter},
		{"value", "its length now", p.Value},
	}
}
