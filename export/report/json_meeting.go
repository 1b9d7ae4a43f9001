package report

import (
	"math/big"

	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

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
