package report

import (
	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

var tempoKeys = join(moment("time", func(m score.TempoAt) beat.Time { return m.Time }), []field[score.TempoAt]{
	{"quarters", "a minute", func(_ *facts, m score.TempoAt) any { return m.Tempo.Quarters.String() }},
	{"tempoBeat", "the note value as printed", func(_ *facts, m score.TempoAt) any { return m.Tempo.Beat.String() }},
	{"rate", "of these a minute, as printed", func(_ *facts, m score.TempoAt) any { return m.Tempo.Rate.String() }},
	{"words", "printed with it, or alone", func(_ *facts, m score.TempoAt) any { return unless(m.Tempo.Words == "", m.Tempo.Words) }},
	{"until", "of rit. and accel.: when it comes to `quarters`", func(j *facts, m score.TempoAt) any { return unless(!m.Tempo.IsGradual(), j.span(m.Until)) }},
})

var speedKeys = []field[score.Speed]{
	{"time", "from here on, from the section's start", func(j *facts, v score.Speed) any { return j.span(v.Time) }},
	{"quarters", "a minute", func(_ *facts, v score.Speed) any { return v.Quarters.String() }},
}

var realignmentKeys = join([]field[score.Realignment]{
	{"index", "0 is the start", func(_ *facts, r score.Realignment) any { return r.Index }},
	{"label", "as printed, if it is", func(_ *facts, r score.Realignment) any { return unless(r.Label == "", r.Label) }},
	{"kind", "natural, or forced by a cut", func(_ *facts, r score.Realignment) any { return kindName(r) }},
	{"cut", "forced: layers that are cut there inside a cycle", func(j *facts, r score.Realignment) any { return unless(!r.Forced(), j.names(r.Cut)) }},
	{"marked", "the score prints its label", func(_ *facts, r score.Realignment) any { return r.Label != "" }},
}, moment("time", func(r score.Realignment) beat.Time { return r.Time }), []field[score.Realignment]{
	{"onBarline", "it is on a barline", func(_ *facts, r score.Realignment) any { return r.OnBarline }},
	{"seconds", "an exact fraction", func(j *facts, r score.Realignment) any { return j.time.At(r.Time).RatString() }},
	{"cycles", "which cycle begins, by name of the layer", func(j *facts, r score.Realignment) any {
		cycles := map[string]int{}
		for i, l := range j.s.Set {
			cycles[j.name(l)] = r.Cycles[i]
		}
		return cycles
	}},
	{"silent", "layers whose head is a rest", func(j *facts, r score.Realignment) any { return unless(len(r.Silent) == 0, j.names(r.Silent)) }},
})

func kindName(r score.Realignment) string {
	if r.Forced() {
		return "forced"
	}
	return "natural"
}

var asideKeys = moment("time", func(t beat.Time) beat.Time { return t })

var compositeKeys = join(moment("onset", func(m analysis.Moment) beat.Time { return m.Time }), []field[analysis.Moment]{
	{"length", "to the next attack of anybody", func(j *facts, m analysis.Moment) any { return j.span(m.Length) }},
	{"layers", "who strikes", func(j *facts, m analysis.Moment) any { return j.names(m.Layers) }},
	{"pitches", "from the lowest up", func(_ *facts, m analysis.Moment) any { return unless(len(m.Tones) == 0, analysis.Ascending(m.Tones)) }},
})

var aloneKeys = []field[analysis.Alone]{
	{"instruments", "of the section, each of which could play everything alone", func(j *facts, a analysis.Alone) any {
		names := []string{}
		for _, l := range a.Can {
			names = append(names, j.s.Layers[l].Instrument.Name)
		}
		return names
	}},
	{"rhythm", "two hands could strike the rhythm without its sounds", func(_ *facts, a analysis.Alone) any { return a.Rhythm }},
	{"closest", "the two attacks that follow each other soonest: how far apart", func(j *facts, a analysis.Alone) any { return unless(a.Seconds == nil, j.span(a.Closest)) }},
	{"seconds", "how long that is", func(_ *facts, a analysis.Alone) any {
		if a.Seconds == nil {
			return absent{}
		}
		return a.Seconds.RatString()
	}},
}

// ending is how a layer's last cycle ends.
type ending struct {
	layer int
	analysis.Ending
}

func (j *facts) ends() []ending {
	var all []ending
	for i, l := range j.f.Layers {
		if j.s.Layers[i].Line == nil && l.End.Cycle > 0 {
			all = append(all, ending{i, l.End})
		}
	}
	return all
}

var endKeys = []field[ending]{
	{"layer", "its name", func(j *facts, e ending) any { return j.name(e.layer) }},
	{"cycle", "the last one", func(_ *facts, e ending) any { return e.Cycle }},
	{"complete", "it is whole", func(_ *facts, e ending) any { return e.Complete }},
	{"at", "when it stops", func(j *facts, e ending) any { return j.span(e.At) }},
	{"cut", "by what: loop, leaves, end", func(_ *facts, e ending) any { return unless(e.Complete, e.By.String()) }},
	{"missing", "of the cycle, if it is cut", func(j *facts, e ending) any { return unless(e.Complete || e.Missing == 0, j.span(e.Missing)) }},
	{"group", "in which it stops, from 1 in played order", func(_ *facts, e ending) any { return unless(e.Complete || e.Group == 0, e.Group) }},
	{"kept", "of that group", func(j *facts, e ending) any { return unless(e.Complete, j.span(e.Kept)) }},
	{"of", "the length of that group", func(j *facts, e ending) any { return unless(e.Complete, j.span(e.Of)) }},
}

var barringKeys = []field[analysis.Barring]{
	{"meter", "or meters by turns", func(_ *facts, b analysis.Barring) any { return b.Meter.String() }},
	{"ties", "over barlines", func(_ *facts, b analysis.Barring) any { return b.Ties }},
	{"groupsBroken", "groups that a barline cuts", func(_ *facts, b analysis.Barring) any { return b.Broken }},
	{"meterChanges", "how many", func(_ *facts, b analysis.Barring) any { return b.Changes }},
	{"bars", "how many", func(_ *facts, b analysis.Barring) any { return b.Bars }},
	{"offBeatEntries", "cycles that begin off the beat", func(_ *facts, b analysis.Barring) any { return b.OffBeat }},
	{"from", "where the meter comes from", func(_ *facts, b analysis.Barring) any { return b.From }},
	{"over", "the stretch that was counted", func(j *facts, _ analysis.Barring) any { return j.span(j.f.Window.Length) }},
}

var pivotKeys = []field[analysis.Pivot]{
	{"played", "what is played already", func(_ *facts, p analysis.Pivot) any { return p.What }},
	{"quarters", "a minute, if that becomes the quarter", func(_ *facts, p analysis.Pivot) any { return p.Quarter.String() }},
	{"value", "its length now", func(_ *facts, p analysis.Pivot) any { return p.Value.String() }},
}
