package report

import (
	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// layer writes one layer with its cycles and attacks.
func (j *facts) layer(i int) {
	l, known := j.s.Layers[i], j.f.Layers[i]
	j.value("name", l.Name)
	j.value("pulse", l.Pulse.String())
	if known.Length > 0 {
		j.value("cycleLength", j.span(known.Length))
	}
	j.value("attackPlaces", map[string]int{"all": known.Attacks.All, "onBarline": known.Attacks.OnBarline,
		"onBeat": known.Attacks.OnBeat, "offBeat": known.Attacks.OffBeat})
	j.value("drift", j.drift(known.DriftAgainst(analysis.Barline)))
	j.list("patterns", func() {
		for _, g := range known.Groups {
			j.value("", groupedOf(g))
		}
	})
	if known.Rhythm != nil {
		j.value("rhythm", groupedOf(*known.Rhythm))
		j.value("rhythmUnit", j.span(known.Rhythm.Unit))
	}
	j.list("heardAs", func() {
		for _, h := range known.Hearings() {
			j.object("", func() { j.heard(i, h) })
		}
	})
	j.list("cycles", func() { j.cycles(i) })
	j.list("attacks", func() {
		for t, a := range j.s.Attacks(i) {
			j.attack(t, a)
		}
	})
}

func (j *facts) attack(t beat.Time, a *score.Attack) {
	var pitches []string
	for _, tone := range a.Tones {
		if tone.IsPitched() {
			pitches = append(pitches, tone.String())
		}
	}
	where := j.at(t)
	j.value("", struct {
		Onset   string   `json:"onset"`
		Bar     int      `json:"bar"`
		Beat    int      `json:"beat"`
		Past    string   `json:"past"`
		Length  string   `json:"length"`
		Pitches []string `json:"pitches"`
		Accent  bool     `json:"accent"`
	}{where.Time, where.Bar, where.Beat, where.Past, j.span(a.Length), append([]string{}, pitches...), a.Accent})
}

// cycles writes the cycles of a layer, each with its drift against the barline
// and the layers of the realigning set; other pairs are summed up in "pairs".
func (j *facts) cycles(layer int) {
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
		all := map[string]step{}
		for k, t := range tracks {
			if s, ok := t.Step(c); ok {
				all[j.s.Layers[others[k]].Name] = j.step(s)
			}
		}
		d := cycleDrift{Layers: all}
		if s, ok := barline.Step(c); ok {
			placed := j.step(s)
			d.Barline = &placed
		}
		j.cycle(c, d)
	}
}

type cycleDrift struct {
	Barline *step           `json:"barline"`
	Layers  map[string]step `json:"layers"`
}

// step places one head.
type step struct {
	Place string  `json:"place"`
	Step  *string `json:"step"` // null for the first head
	Total string  `json:"total"`
}

func (j *facts) step(s analysis.Step) step {
	out := step{Place: j.span(s.Place), Total: j.span(s.Total)}
	if !s.First {
		by := j.span(s.Step)
		out.Step = &by
	}
	return out
}

func (j *facts) cycle(c *score.Cycle, d cycleDrift) {
	sizes := make([]int, 0, len(c.Groups))
	var silent []int
	for i, g := range c.Groups {
		sizes = append(sizes, g.Size)
		if g.Blank {
			silent = append(silent, i+1)
		}
	}
	out := struct {
		Index    int        `json:"index"`
		Number   int        `json:"number"`
		Start    string     `json:"start"`
		Bar      *int       `json:"bar,omitempty"`
		Beat     *int       `json:"beat,omitempty"`
		Past     *string    `json:"past,omitempty"`
		Head     string     `json:"head"`
		Length   string     `json:"length"`
		Sounds   string     `json:"sounds"`
		Groups   []int      `json:"groups"`
		Silent   []int      `json:"silentGroups,omitempty"` // from 1
		Complete bool       `json:"complete"`
		Cut      string     `json:"cut,omitempty"`
		Drift    cycleDrift `json:"drift"`
	}{Index: c.Index, Number: c.Number, Start: j.span(c.Start), Head: j.span(c.Start + c.Head), Length: j.span(c.Length),
		Sounds: j.span(c.Sounds), Groups: sizes, Silent: silent, Complete: c.Cut == score.NotCut, Cut: cutName(c.Cut), Drift: d}
	if c.Start >= 0 {
		w := j.at(c.Start)
		out.Bar, out.Beat, out.Past = &w.Bar, &w.Beat, &w.Past
	}
	j.value("", out)
}

func (j *facts) heard(layer int, h analysis.Hearing) {
	j.value("longGroupsFirst", h.LongFirst)
	patterns := []map[string]string{}
	for _, p := range h.Patterns {
		patterns = append(patterns, map[string]string{"name": p.Name, "source": p.Source.Full})
	}
	j.value("patterns", patterns)
	j.value("groups", h.Groups)
	j.value("unit", j.span(h.Unit))
	j.value("moves", h.Turn)
	j.value("movesBy", j.span(beat.Time(h.Turn)*h.Unit))
	j.list("realignments", func() {
		for f := range analysis.FeltRealignments(j.s, layer, h) {
			out := struct {
				Index   int     `json:"index"`
				Pulse   int     `json:"pulse"`
				OnPulse bool    `json:"onPulse"`
				Group   int     `json:"group"`
				OnGroup bool    `json:"onGroup"`
				Early   bool    `json:"beforeFeltDownbeat"`
				Bar     *int    `json:"bar,omitempty"`
				Beat    *int    `json:"beat,omitempty"`
				Past    *string `json:"past,omitempty"`
				OnBeat  *bool   `json:"onBeat,omitempty"`
				Barline *bool   `json:"onBarline,omitempty"`
			}{Index: f.Index, Pulse: f.Pulse, OnPulse: f.OnPulse, Group: f.Group, OnGroup: f.OnGroup, Early: f.Early}
			if f.Metric {
				past := f.Where.Past.String()
				out.Bar, out.Beat, out.Past, out.OnBeat, out.Barline = &f.Where.Bar, &f.Where.Beat, &past, &f.OnBeat, &f.Barline
			}
			j.value("", out)
		}
	})
}
