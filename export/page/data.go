package page

import (
	"tieover/layout/play"
	"tieover/score"
	"tieover/score/beat"
)

// data is what the player plays from. Times are ticks of Grid; those of a
// section count from its bar 1, those of passes, which are when that begins, and of
// tempos from the first.
type data struct {
	Grid     beat.Grid     `json:"grid"`
	Fine     beat.Time     `json:"fine"` // ticks of Grid in one of the figures
	Length   beat.Time     `json:"length"`
	Tempos   [][3]int64    `json:"tempos"` // at, and quarters a minute as a fraction
	Passes   [][3]int64    `json:"passes"` // section, start, and which time through it
	Sections []sectionData `json:"sections"`

	Recording *recordingData `json:"recording,omitempty"`
}

// recordingData says when moments sound in a recording.
type recordingData struct {
	File  string       `json:"file"`
	Marks [][2]float64 `json:"marks"` // ticks of Grid from the piece's start, seconds
}

type sectionData struct {
	Name   string    `json:"name"`
	From   beat.Time `json:"from,omitempty"` // where a pickup begins
	Meters [][]int64 `json:"meters"`         // of each kind of bar: where its beats begin
	// Lengths are those of each kind of bar when it is whole.
	Lengths  []int64       `json:"lengths"`
	Readings []readingData `json:"readings"` // as it is written, then as it is felt
	Marks    []markData    `json:"marks"`    // realignments
	Layers   []layerData   `json:"layers"`
}

// readingData is one way to bar a section.
type readingData struct {
	Name  string     `json:"name"`
	First int        `json:"first"` // number of the first bar
	Bars  [][2]int64 `json:"bars"`  // where each begins whole, which may be before the section, and its kind
}

type markData struct {
	At    beat.Time `json:"at"`
	Label string    `json:"label"`
}

type layerData struct {
	Name   string `json:"name"`
	Letter string `json:"letter"`
	// Version is "cut" or "whole" of a loop that has two; the Second is not in the spec.
	Version string `json:"version,omitempty"`
	Second  bool   `json:"second,omitempty"`

	Kind string `json:"kind"` // how it sounds as it begins: struck, plucked, held, drum
	// Then is how it sounds from moments on, where that changes: a violin that is plucked.
	Then []kindAt  `json:"then,omitempty"`
	Pan  int       `json:"pan"` // -90 … 90
	Unit beat.Time `json:"unit"`
	// Events are onset, length, velocity, then MIDI keys; of what is heard in
	// strokes the first two. Strokes are alike, and only heard.
	Events  [][]int64 `json:"events"`
	Strokes [][]int64 `json:"strokes,omitempty"`
	// Cycles are start, sounding length, clock face, printed number, grouping.
	Cycles [][5]int64 `json:"cycles"`
	// Of one that plays in the pickup: from where, and how many of its events and
	// strokes are heard in the first pass only.
	From   beat.Time  `json:"from,omitempty"`
	Pickup []int      `json:"pickup,omitempty"`
	Groups [][]int64  `json:"groups"` // the different groupings: the length of each group
	Drifts [][]string `json:"drifts"` // in each reading, one a cycle, in words
}

// kindAt is how a layer sounds from a moment of its section on.
type kindAt struct {
	At   beat.Time `json:"at"`
	Kind string    `json:"kind"`
}

// newData gathers what the player needs. fine is how many ticks of the
// performance one of the section has.
func newData(f *play.Performance, p *score.Piece, views []*view) data {
	fine := beat.Time(f.Grid / p.Grid)
	d := data{Grid: f.Grid, Fine: fine, Length: f.Length}
	for _, t := range f.Tempos {
		d.Tempos = append(d.Tempos, [3]int64{int64(t.At), t.Quarters.Num(), t.Quarters.Den()})
	}
	for _, pass := range f.Passes {
		d.Passes = append(d.Passes, [3]int64{int64(pass.Section), int64(pass.Start), int64(pass.Time)})
	}
	for _, v := range views {
		d.Sections = append(d.Sections, v.data(fine))
	}
	d.Recording = recordingOf(p, f, fine)
	for i := range f.Voices {
		addVoice(&d, f, &f.Voices[i])
	}
	return d
}

// recordingOf gathers the marks of all sections, each in its first pass.
func recordingOf(p *score.Piece, f *play.Performance, fine beat.Time) *recordingData {
	var d *recordingData
	for _, pass := range f.Passes {
		r := p.Sections[pass.Section].Recording
		if r == nil || pass.Time > 1 {
			continue
		}
		if d == nil {
			d = &recordingData{File: r.File}
		}
		for _, m := range r.Marks {
			d.Marks = append(d.Marks, [2]float64{float64(pass.Start + fine*m.Time), float64(m.Seconds.Num()) / float64(m.Seconds.Den())})
		}
	}
	return d
}

// data is all of a section but its sounds.
func (v *view) data(fine beat.Time) sectionData {
	d := sectionData{Name: v.name(), From: fine * v.s.Opening(), Marks: []markData{}}
	kinds := map[string]int{}
	for _, rd := range v.readings {
		r := readingData{Name: rd.name, First: rd.s.FirstNumber()}
		for _, b := range rd.bars {
			key := b.Signature.String()
			k, known := kinds[key]
			if !known {
				k = len(d.Meters)
				kinds[key] = k
				var meter []int64
				at := beat.Time(0)
				for _, length := range b.Signature.Beats() {
					meter = append(meter, int64(fine*at))
					at += v.s.Grid.Must(length)
				}
				d.Meters = append(d.Meters, meter)
				d.Lengths = append(d.Lengths, int64(fine*at))
			}
			r.Bars = append(r.Bars, [2]int64{int64(fine * (b.Start - b.Skipped)), int64(k)})
		}
		d.Readings = append(d.Readings, r)
	}
	for _, r := range v.realignments {
		d.Marks = append(d.Marks, markData{fine * r.Time, r.Name()})
	}
	for i := range v.rows {
		d.Layers = append(d.Layers, v.layerData(&v.rows[i], fine))
	}
	return d
}

// layerData is all of a layer but its sounds.
func (v *view) layerData(r *row, fine beat.Time) layerData {
	l := layerData{Name: r.layer.Name, Letter: r.letter, Unit: fine * r.unit, From: fine * r.layer.Opening(), Events: [][]int64{}}
	groupings := map[string]int{}
	for k := range r.cycles {
		cy := &r.cycles[k]
		key := sizes(cy.Groups)
		grouping, known := groupings[key]
		if !known {
			grouping = len(l.Groups)
			groupings[key] = grouping
			l.Groups = append(l.Groups, lengths(cy.Groups, fine))
		}
		l.Cycles = append(l.Cycles, [5]int64{int64(fine * cy.Start), int64(fine * cy.Sounds), int64(cy.face), int64(cy.Number), int64(grouping)})
	}
	for _, rd := range v.readings {
		var drifts []string
		for k := range r.cycles {
			drifts = append(drifts, driftWords(rd.late[r.index][k], r.layer.Pulse))
		}
		l.Drifts = append(l.Drifts, drifts)
	}
	return l
}

// lengths are those of groups in ticks of the sound.
func lengths(groups []score.Group, fine beat.Time) []int64 {
	all := make([]int64, len(groups))
	for i, g := range groups {
		all[i] = int64(fine * g.Length)
	}
	return all
}

// addVoice adds the sounds of a voice to its layers, from the first pass of
// each section.
func addVoice(d *data, f *play.Performance, voice *play.Voice) {
	for section := range d.Sections {
		if i := voice.Layer(section); i >= 0 {
			addEvents(&d.Sections[section].Layers[i], f, voice, section)
		}
	}
	for _, pass := range f.Passes {
		if i := voice.Layer(pass.Section); i >= 0 {
			l := &d.Sections[pass.Section].Layers[i]
			l.Kind, l.Pan = kindOf(voice, pass.Start)
			l.Then = kindsIn(voice, pass, l.Kind)
		}
	}
}

// kindsIn lists how a voice sounds later in a pass than as it begins.
func kindsIn(voice *play.Voice, pass play.Pass, kind string) (then []kindAt) {
	for _, s := range voice.Settings {
		if s.At > pass.Start && s.At < pass.Start+pass.Length && manners[s.Manner] != kind {
			kind = manners[s.Manner]
			then = append(then, kindAt{s.At - pass.Start, kind})
		}
	}
	return then
}

// addEvents adds what a voice sounds in the first pass of a section.
func addEvents(l *layerData, f *play.Performance, voice *play.Voice, section int) {
	for e := range voice.Events() {
		pass := f.Passes[e.Pass]
		if pass.Time > 1 || pass.Section != section {
			continue
		}
		event := []int64{int64(e.At - pass.Start), int64(e.Length), int64(e.Velocity)}
		for _, key := range e.Keys {
			event = append(event, int64(key))
		}
		switch {
		case e.Inner:
			l.Strokes = append(l.Strokes, event)
		case e.Lasts > 0: // seen in its length, heard in strokes
			l.Strokes = append(l.Strokes, event)
			l.Events = append(l.Events, []int64{event[0], int64(e.Lasts)})
		default:
			l.Events = append(l.Events, event)
		}
		if e.Pickup {
			l.Pickup = []int{len(l.Events), len(l.Strokes)}
		}
	}
}

// kindOf says how a voice sounds at a moment, and from where.
func kindOf(voice *play.Voice, at beat.Time) (kind string, pan int) {
	now := voice.Settings[0]
	for _, s := range voice.Settings {
		if s.At <= at {
			now = s
		}
	}
	return manners[now.Manner], now.Pan
}

// manners are the script's names of how an instrument sounds.
var manners = map[play.Manner]string{play.Held: "held", play.Struck: "struck", play.Plucked: "plucked", play.Drums: "drum"}
