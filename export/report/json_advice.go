package report

import "tieover/score"

func (j *facts) ends() {
	for i, l := range j.f.Layers {
		e := l.End
		if j.s.Layers[i].Line != nil || e.Cycle == 0 {
			continue
		}
		out := struct {
			Layer    string `json:"layer"`
			Cycle    int    `json:"cycle"`
			Complete bool   `json:"complete"`
			At       string `json:"at"`
			Cut      string `json:"cut,omitempty"`
			Missing  string `json:"missing,omitempty"`
			Group    int    `json:"group,omitempty"`
			Kept     string `json:"kept,omitempty"`
			Of       string `json:"of,omitempty"`
		}{Layer: j.s.Layers[i].Name, Cycle: e.Cycle, Complete: e.Complete, At: j.span(e.At)}
		if !e.Complete {
			out.Cut, out.Missing, out.Group = cutName(e.By), j.span(e.Missing), e.Group
			out.Kept, out.Of = j.span(e.Kept), j.span(e.Of)
		}
		j.value("", out)
	}
}

func cutName(c score.Cut) string {
	return map[score.Cut]string{score.CutByLoop: "loop", score.CutByLeaving: "leaves", score.CutByEnd: "end"}[c]
}

func (j *facts) clean() any {
	if !j.f.Clean.Known {
		return nil
	}
	return map[string]any{"bars": j.f.Clean.Bars, "bar": j.f.Clean.Bar, "time": j.span(j.f.Clean.At)}
}

func (j *facts) barrings() {
	for _, b := range j.f.Barrings {
		j.value("", struct {
			Meter   string   `json:"meter"`
			Ties    int      `json:"ties"`
			Broken  int      `json:"groupsBroken"`
			Changes int      `json:"meterChanges"`
			Bars    int      `json:"bars"`
			OffBeat int      `json:"offBeatEntries"`
			From    []string `json:"from"`
			Over    string   `json:"over"` // the stretch that was counted
		}{b.Meter.String(), b.Ties, b.Broken, b.Changes, b.Bars, b.OffBeat, b.From, j.span(j.f.Window.Length)})
	}
}

func (j *facts) pivots() {
	for _, p := range j.f.Pivots {
		j.value("", map[string]string{"played": p.What, "value": p.Value.String(), "quarters": p.Quarter.String()})
	}
}
