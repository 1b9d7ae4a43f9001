package report

import (
	"io"

	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// Version is the version of the JSON form. It grows when a key changes its
// meaning or goes; new keys may come at any time.
const Version = 1

// JSON writes everything that is known about a settled piece. Musical times
// are fractions of a whole note as strings, counted from the section's start.
// The keys of a piece of one section stand at the top; of a longer piece in
// the list "sections". See cmd/tieover/help/json.md for all keys.
func JSON(w io.Writer, p *score.Piece) error {
	out := newStream(w)
	out.object("", func() {
		out.value("version", Version)
		out.value("title", p.Title)
		if len(p.Sections) == 1 {
			newFacts(out, p.Sections[0]).all()
		} else {
			out.list("sections", func() {
				for _, s := range p.Sections {
					out.object("", newFacts(out, s).all)
				}
			})
		}
		out.list("warnings", func() {
			for _, warning := range p.Warnings {
				out.value("", warning.String())
			}
		})
	})
	out.out.WriteByte('\n')
	return out.out.Flush()
}

// facts writes one section.
type facts struct {
	*stream
	s     *score.Section
	f     *analysis.Facts
	place *analysis.Placer
	time  *score.Clock
}

func newFacts(out *stream, s *score.Section) *facts {
	return &facts{out, s, analysis.Of(s), analysis.NewPlacer(s), s.Clock()}
}

func (j *facts) all() {
	j.value("section", j.s.Title())
	j.value("meter", j.s.Meter.String())
	j.value("pulse", j.s.Pulse.String())
	j.value("length", j.span(j.s.Length))
	j.value("end", endName(j.s.End))
	j.value("bars", j.s.BarCount())
	j.value("seconds", j.s.Seconds(j.s.Length).RatString())
	j.list("tempos", j.tempos)
	j.value("realigningSet", j.names(j.s.Set))
	j.value("withBarline", j.s.WithBarline)
	j.value("leastCommonCycle", j.meeting(j.f.Together))
	j.value("leastCommonCycleOnBarline", j.meeting(j.f.OnBarline))
	if r := j.f.Resultant; r != nil {
		j.value("resultant", resultant{r.Generators, r.Series, r.Factors, r.Complement, r.Fractioned})
	}
	if j.f.Home != nil {
		j.value("rotationHome", j.big(j.f.Home))
	}
	j.list("layers", func() {
		for i := range j.s.Layers {
			j.object("", func() { j.layer(i) })
		}
	})
	j.list("realignments", j.realignments)
	j.list("pairs", j.pairs)
	j.list("composite", j.composite)
	j.list("attacksPerBar", func() {
		for b := range analysis.AttacksPerBar(j.s) {
			j.value("", struct {
				Attacks int `json:"attacks"`
				Bar     int `json:"bar"`
			}{b.Attacks, b.Bar})
		}
	})
	j.list("ends", j.ends)
	j.value("cleanEnd", j.clean())
	j.list("barrings", j.barrings)
	j.list("pivots", j.pivots)
}

func endName(e score.End) string {
	return map[score.End]string{score.Stop: "stop", score.Land: "land", score.Repeat: "repeat"}[e]
}

func (j *facts) span(t beat.Time) string { return j.s.Grid.Span(t).String() }

func (j *facts) names(layers []int) []string {
	names := make([]string, len(layers))
	for i, l := range layers {
		names[i] = j.s.Layers[l].Name
	}
	return names
}

// at is a moment: its time, and where a player finds it.
type at struct {
	Time string `json:"time"`
	Bar  int    `json:"bar"`
	Beat int    `json:"beat"`
	Past string `json:"past"` // after the beat
}

func (j *facts) at(t beat.Time) at {
	p := j.place.At(t)
	return at{j.span(t), p.Bar, p.Beat, j.span(p.Past)}
}

func (j *facts) tempos() {
	for _, m := range j.s.Tempos() {
		j.value("", struct {
			at
			Quarters string `json:"quarters"`
			Beat     string `json:"tempoBeat"`
			Rate     string `json:"rate"`
		}{j.at(m.Time), m.Tempo.Quarters.String(), m.Tempo.Beat.String(), m.Tempo.Rate.String()})
	}
}

func (j *facts) realignments() {
	for r := range j.s.Realignments() {
		cycles := map[string]int{}
		for i, l := range j.s.Set {
			cycles[j.s.Layers[l].Name] = r.Cycles[i]
		}
		j.value("", struct {
			Index int    `json:"index"`
			Label string `json:"label,omitempty"`
			at
			OnBarline bool           `json:"onBarline"`
			Seconds   string         `json:"seconds"`
			Cycles    map[string]int `json:"cycles"`
			Silent    []string       `json:"silent,omitempty"`
		}{r.Index, r.Label, j.at(r.Time), r.OnBarline, j.time.At(r.Time).RatString(), cycles, j.names(r.Silent)})
	}
}

func (j *facts) composite() {
	for m := range analysis.Moments(j.s) {
		where := j.at(m.Time)
		j.value("", struct {
			Onset   string   `json:"onset"`
			Bar     int      `json:"bar"`
			Beat    int      `json:"beat"`
			Past    string   `json:"past"`
			Length  string   `json:"length"`
			Layers  []string `json:"layers"`
			Pitches []string `json:"pitches,omitempty"`
		}{where.Time, where.Bar, where.Beat, where.Past, j.span(m.Length), j.names(m.Layers), analysis.Ascending(m.Tones)})
	}
}
