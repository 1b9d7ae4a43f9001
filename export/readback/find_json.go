package readback

import (
	"fmt"
	"io"

	"tieover/score/find"
	"tieover/score/found"
)

// Findings is what was found for programs.
// Bits and milliseconds are the only numbers that are not exact.
type Findings struct {
	Version int      `json:"version"`
	Lines   []Line   `json:"lines"`
	Notes   []string `json:"notes"`
}

// Line is what was found in one line.
type Line struct {
	Name         string          `json:"name"`
	Pulse        string          `json:"pulse"`
	Attacks      int             `json:"attacks"`
	Pulses       int64           `json:"pulses"`
	Taps         *tapsJSON       `json:"taps,omitempty"`
	Begins       int64           `json:"begins"` // pulses from the first attack of all lines
	Descriptions []describedJSON `json:"descriptions"`
	Nearest      *describedJSON  `json:"nearest,omitempty"` // where no pattern is found
}

type tapsJSON struct {
	Tempo        float64         `json:"tempo"`
	Estimated    bool            `json:"estimated"`
	Milliseconds float64         `json:"pulseMilliseconds"`
	Scatter      float64         `json:"scatterMilliseconds"`
	Swing        string          `json:"swing,omitempty"`
	OpenEnd      bool            `json:"lastLengthUnknown"`
	Near         []nearJSON      `json:"near"`
	Deviations   []deviationJSON `json:"deviations"`
}

// nearJSON is another reading of the taps that is hardly longer.
type nearJSON struct {
	Text string  `json:"text"`
	Bits float64 `json:"bitsMore"`
}

type deviationJSON struct {
	Tap          int     `json:"tap"`
	Milliseconds float64 `json:"milliseconds"`
}

type describedJSON struct {
	Text       string      `json:"text"`
	Pattern    bool        `json:"pattern"`
	Strength   string      `json:"strength,omitempty"`
	Bits       float64     `json:"bits"`
	Saved      float64     `json:"saved"`
	Groups     string      `json:"groups"`
	Length     int64       `json:"length"`
	Cycles     int         `json:"cycles"`
	Rest       int64       `json:"rest"`
	Lead       int64       `json:"lead"`
	CutEvery   int64       `json:"cutEvery,omitempty"`
	Tail       int64       `json:"tail,omitempty"`
	Process    string      `json:"process,omitempty"`
	Pitches    *seriesJSON `json:"pitches,omitempty"`
	Exceptions []Exception `json:"exceptions"`
	Segments   []Segment   `json:"segments"` // where it is not one loop all through
}

// Segment is a stretch with one loop; its groups are "" without one.
type Segment struct {
	Pulse  int64  `json:"pulse"`  // where it begins, from 1
	Attack int    `json:"attack"` // its first, from 1
	From   int    `json:"attackFrom,omitempty"`
	To     int    `json:"attackTo,omitempty"`
	Place  string `json:"place"`
	Groups string `json:"groups"`
	Cycles int    `json:"cycles"`
	Rest   int64  `json:"rest"`
	// Process is what changes from cycle to cycle, in words.
	Process string `json:"process,omitempty"`
}

type seriesJSON struct {
	Length  int    `json:"length"`
	Restart string `json:"restart"` // "cycle", "never", or "none" when there is no pattern
	Text    string `json:"text"`
}

// Exception is a cycle that differs from its loop.
type Exception struct {
	Pulse  int64  `json:"pulse"` // from 1
	Place  string `json:"place"`
	Text   string `json:"text"`
	Cycle  int    `json:"cycle"`  // of its segment
	Groups string `json:"groups"` // instead of the loop's; "" where only the pitches differ
	// Pitches are those of a cycle that does not have the series'.
	Pitches string `json:"pitches,omitempty"`
}

// FindJSON writes what was found for programs, of each line as many descriptions as top.
func FindJSON(w io.Writer, m found.Music, top int) error {
	out := Findings{Version: 1, Notes: append([]string{}, m.Notes...)}
	for _, line := range m.Lines {
		l := line.List
		j := Line{Name: line.Name, Pulse: l.Pulse.String(), Attacks: len(l.Hits), Pulses: l.End, Begins: l.Hits[0].At}
		if t := line.Taps; t != nil {
			j.Taps = &tapsJSON{Tempo: t.Tempo, Estimated: t.Estimated, Milliseconds: 1000 * t.Pulse,
				Scatter: 1000 * t.Scatter, Swing: t.Swing.String(), OpenEnd: t.OpenEnd, Near: []nearJSON{}, Deviations: []deviationJSON{}}
			for _, n := range t.Near {
				j.Taps.Near = append(j.Taps.Near, nearJSON{n.Text, n.Bits})
			}
			for _, d := range t.Deviations {
				j.Taps.Deviations = append(j.Taps.Deviations, deviationJSON{d.Tap, 1000 * d.Seconds})
			}
		}
		for i, d := range line.Ranked {
			if i >= top {
				break
			}
			j.Descriptions = append(j.Descriptions, described(line, d))
		}
		if near := line.Ranked[0].Nearest; near != nil && line.Ranked[0].Literal {
			nearest := described(line, near)
			j.Nearest = &nearest
		}
		out.Lines = append(out.Lines, j)
	}
	return encodeJSON(w, out)
}

func described(line found.Line, d *find.Description) describedJSON {
	loop := d.Loop()
	j := describedJSON{Text: d.String(), Pattern: !d.Literal, Bits: d.Bits(), Saved: d.Saved, Groups: find.GroupsText(loop.Groups), Length: loop.Length(), Cycles: loop.Cycles,
		Rest: loop.Rest, Lead: d.Stretches[0].At, CutEvery: loop.CutEvery, Tail: loop.Tail, Exceptions: []Exception{}, Segments: []Segment{}}
	if !d.Literal {
		j.Strength = strength(d)
	}
	if d.Series != nil {
		j.Pitches = &seriesJSON{Length: len(d.Series.Chords), Restart: "cycle", Text: d.SeriesWords(line.List)}
		switch {
		case d.Series.Literal:
			j.Pitches.Restart = "none"
		case d.Series.Own:
			j.Pitches.Restart = "never"
		}
		for _, c := range d.Series.Others {
			pitches := c.Words(line.List)
			j.Exceptions = append(j.Exceptions, Exception{c.At + 1, line.Where(c.At), fmt.Sprintf("cycle %d: pitches %s", c.Cycle+1, pitches), c.Cycle + 1, "", pitches})
		}
	}
	if d.IsExact() {
		j.Process = loop.ProcessWords()
		return j
	}
	for _, s := range d.Stretches {
		segment := Segment{Pulse: s.At + 1, Attack: s.First + 1, Place: line.Where(s.At), Groups: find.GroupsText(s.Groups), Cycles: s.Cycles, Rest: s.Rest, Process: s.ProcessWords()}
		if s.Edge != (find.Edge{}) {
			segment.From, segment.To = s.Edge.First+1, s.Edge.Last+1
		}
		j.Segments = append(j.Segments, segment)
		for _, e := range s.Exceptions {
			j.Exceptions = append(j.Exceptions, Exception{e.At + 1, line.Where(e.At), e.String(), e.Cycle + 1, find.GroupsText(e.Groups), ""})
		}
	}
	return j
}
