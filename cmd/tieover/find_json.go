package main

import (
	"io"

	"tieover/score/find"
)

// findJSON is what was found for programs; version 1 only ever gains fields.
// Bits and milliseconds are the only numbers that are not exact.
type findJSON struct {
	Version int            `json:"version"`
	Lines   []findLineJSON `json:"lines"`
	Notes   []string       `json:"notes"`
}

type findLineJSON struct {
	Name         string          `json:"name"`
	Pulse        string          `json:"pulse"`
	Attacks      int             `json:"attacks"`
	Pulses       int64           `json:"pulses"`
	Taps         *tapsJSON       `json:"taps,omitempty"`
	Descriptions []describedJSON `json:"descriptions"`
}

type tapsJSON struct {
	Tempo        float64         `json:"tempo"`
	Estimated    bool            `json:"estimated"`
	Milliseconds float64         `json:"pulseMilliseconds"`
	Deviations   []deviationJSON `json:"deviations"`
}

type deviationJSON struct {
	Tap          int     `json:"tap"`
	Milliseconds float64 `json:"milliseconds"`
}

type describedJSON struct {
	Text       string          `json:"text"`
	Pattern    bool            `json:"pattern"`
	Strength   string          `json:"strength,omitempty"`
	Bits       float64         `json:"bits"`
	Saved      float64         `json:"saved"`
	Groups     string          `json:"groups"`
	Length     int64           `json:"length"`
	Cycles     int             `json:"cycles"`
	Rest       int64           `json:"rest"`
	Lead       int64           `json:"lead"`
	CutEvery   int64           `json:"cutEvery,omitempty"`
	Tail       int64           `json:"tail,omitempty"`
	Process    string          `json:"process,omitempty"`
	Pitches    *seriesJSON     `json:"pitches,omitempty"`
	Exceptions []exceptionJSON `json:"exceptions"`
}

type seriesJSON struct {
	Length  int    `json:"length"`
	Restart string `json:"restart"` // "cycle", "never", or "none" when there is no pattern
	Text    string `json:"text"`
}

type exceptionJSON struct {
	Pulse int64  `json:"pulse"` // from 1
	Place string `json:"place"`
	Text  string `json:"text"`
}

func (o *findOptions) writeJSON(w io.Writer, lines []findLine, info findInfo) error {
	out := findJSON{Version: 1, Notes: append([]string{}, info.notes...)}
	for _, line := range lines {
		l := line.list
		j := findLineJSON{Name: line.name, Pulse: l.Pulse.String(), Attacks: len(l.Hits), Pulses: l.End}
		if t := line.taps; t != nil {
			j.Taps = &tapsJSON{Tempo: t.Tempo, Estimated: t.Estimated, Milliseconds: 1000 * t.Pulse, Deviations: []deviationJSON{}}
			for _, d := range t.Deviations {
				j.Taps.Deviations = append(j.Taps.Deviations, deviationJSON{d.Tap, 1000 * d.Seconds})
			}
		}
		for i, d := range line.ranked {
			if i >= o.top {
				break
			}
			j.Descriptions = append(j.Descriptions, line.describedJSON(d))
		}
		out.Lines = append(out.Lines, j)
	}
	return encodeJSON(w, out)
}

func (line findLine) describedJSON(d *find.Description) describedJSON {
	j := describedJSON{Text: d.String(), Pattern: !d.Literal, Bits: d.Bits(), Saved: d.Saved, Groups: find.GroupsText(d.Groups),
		Length: d.Length(), Cycles: d.Cycles, Rest: d.Rest, Lead: d.Lead, CutEvery: d.CutEvery, Tail: d.Tail, Exceptions: []exceptionJSON{}}
	if !d.Literal {
		j.Strength = strength(d)
	}
	j.Process = d.ProcessWords()
	if d.Series != nil {
		j.Pitches = &seriesJSON{Length: len(d.Series.Chords), Restart: "cycle", Text: d.Series.Words(line.list, d.AttacksPerCycle())}
		switch {
		case d.Series.Literal:
			j.Pitches.Restart = "none"
		case d.Series.Own:
			j.Pitches.Restart = "never"
		}
	}
	for _, e := range d.Exceptions {
		j.Exceptions = append(j.Exceptions, exceptionJSON{e.At + 1, line.where(e.At), e.String()})
	}
	return j
}
