package report

import (
	"io"
	"math/big"

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
// the list "sections". See DEVELOPERS.md for all keys.
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
}

func newFacts(out *stream, s *score.Section) *facts {
	return &facts{out, s, analysis.Of(s), analysis.NewPlacer(s)}
}

func (j *facts) all() {
	j.value("section", j.s.Name)
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

// meeting is when heads coincide.
type meeting struct {
	Never   bool     `json:"never"`
	Apart   string   `json:"apart,omitempty"`
	Walked  bool     `json:"walked"`
	AtStart bool     `json:"atStart"`
	Lengths []string `json:"lengths,omitempty"` // that were combined
	First   string   `json:"first,omitempty"`
	Period  string   `json:"period,omitempty"`
	Pulses  string   `json:"pulses,omitempty"` // the period in the section's pulse
	Bars    string   `json:"bars,omitempty"`   // the period in bars, where all bars are alike
	Over    bool     `json:"afterLeaving,omitempty"`
}

func (j *facts) meeting(m score.Meeting) meeting {
	out := meeting{Never: m.Never, Walked: m.Walked, AtStart: m.Start}
	if m.Never {
		out.Apart = j.span(m.Apart)
	}
	for _, n := range m.Lengths {
		out.Lengths = append(out.Lengths, j.big(n))
	}
	if m.First != nil {
		out.First = j.big(m.First)
	}
	if m.Period == nil || m.Never {
		return out
	}
	out.Period = j.big(m.Period)
	out.Pulses = ratio64(m.Period, j.s.Grid.Must(j.s.Pulse.Span()))
	if analysis.Steady(j.s) {
		out.Bars = ratio64(m.Period, j.s.Grid.Must(j.s.Meter[0].Span()))
	}
	return out
}

// resultant is the rhythm of the heads alone, in pulses of the section.
type resultant struct {
	Generators []int `json:"generators"`
	Series     []int `json:"series"`
	Factors    []int `json:"complementaryFactors,omitempty"`
	Complement []int `json:"complementarySeries,omitempty"`
	Fractioned []int `json:"withFractioning,omitempty"`
}

// big writes a number of ticks as a fraction of a whole note.
func (j *facts) big(ticks *big.Int) string { return ratio64(ticks, beat.Time(j.s.Grid)) }

func ratio64(n *big.Int, unit beat.Time) string {
	return new(big.Rat).SetFrac(n, big.NewInt(int64(unit))).RatString()
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
		}{r.Index, r.Label, j.at(r.Time), r.OnBarline, j.s.Seconds(r.Time).RatString(), cycles, j.names(r.Silent)})
	}
}

func (j *facts) pairs() {
	for _, p := range j.f.Pairs {
		together, onBarline := j.meeting(p.Together), j.meeting(p.OnBarline)
		together.Over, onBarline.Over = p.Over, p.OverOnBarline
		j.value("", struct {
			Layers    []string `json:"layers"`
			Together  meeting  `json:"together"`
			OnBarline meeting  `json:"onBarline"`
			Attacks   int      `json:"coincidences"`
			Drift     *drift   `json:"drift,omitempty"` // of the second against the first
			Reverse   *drift   `json:"reverseDrift,omitempty"`
		}{j.names([]int{p.A, p.B}), together, onBarline, p.Attacks,
			j.drift(j.f.Layers[p.B].DriftAgainst(p.A)), j.drift(j.f.Layers[p.A].DriftAgainst(p.B))})
	}
}

// drift sums up a drift.
type drift struct {
	Constant  bool   `json:"constant"`
	Step      string `json:"step,omitempty"`
	Reference string `json:"reference,omitempty"` // its length
	Home      int    `json:"home,omitempty"`      // cycles until the place is the same again
	Steps     int    `json:"steps"`               // that were looked at
	All       bool   `json:"all"`                 // of the section
}

func (j *facts) drift(d analysis.Drift) *drift {
	if d.Steps == 0 {
		return nil
	}
	out := &drift{Constant: d.Constant, Steps: d.Steps, All: d.All}
	if d.Constant {
		out.Step, out.Reference, out.Home = j.span(d.Step), j.span(d.Length), d.Home
	}
	return out
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
