package page

import (
	"cmp"
	"slices"
	"strings"

	"tieover/layout/rows"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// mostDriftRows is how many cycles the drift table lists; the report has all.
const mostDriftRows = 400

// driftRow is one cycle in the drift table.
type driftRow struct {
	Row, Index int // layer and cycle, from 0
	Letter     string
	Layer      string
	Number     int
	Where      []string // in each reading, as the next
	Drift      []string
	Against    string // its place in the cycle of the layer that others are measured by
	Groups     string
	Cut        string
}

// reference is the layer whose cycle the others are measured by: the first of
// the realigning set.
func (v *view) reference() int {
	if len(v.s.Set) > 0 {
		return v.s.Set[0]
	}
	return 0
}

// places says where each head of a row falls in the reference's cycle, by the
// index of its cycle.
func (v *view) places(r *row) map[int]string {
	places := map[int]string{}
	ref := &v.rows[v.reference()]
	if r.index == ref.index {
		return places
	}
	for step := range analysis.Walk(v.s, r.index, ref.index) {
		places[step.Cycle] = pulses(step.Place, ref.unit).Mixed() + " of " + pulses(step.Length, ref.unit).Mixed()
	}
	return places
}

// drift lists the cycles in time order, and how many there are.
func (v *view) drift() (rows []driftRow, all int) {
	type place struct {
		row   *row
		cycle int
	}
	var cycles []place
	against := make([]map[int]string, len(v.rows))
	for i := range v.rows {
		r := &v.rows[i]
		against[i] = v.places(r)
		for k, cy := range r.cycles {
			if !cy.Landing {
				cycles = append(cycles, place{r, k})
			}
		}
	}
	slices.SortStableFunc(cycles, func(a, b place) int {
		return cmp.Compare(a.row.cycles[a.cycle].Start, b.row.cycles[b.cycle].Start)
	})
	for _, c := range cycles[:min(len(cycles), mostDriftRows)] {
		d := v.driftRow(c.row, c.cycle)
		d.Against = against[c.row.index][c.row.cycles[c.cycle].Index]
		rows = append(rows, d)
	}
	return rows, len(cycles)
}

func (v *view) driftRow(r *row, k int) driftRow {
	cy := &r.cycles[k]
	d := driftRow{Row: r.index, Index: k, Letter: r.letter, Layer: r.layer.Name, Number: cy.Number}
	d.Where = v.sentence(func(rd *reading) string {
		if cy.Start < r.layer.Opening() {
			return "before the section"
		}
		return rd.s.Where(cy.Start).String()
	})
	d.Drift = v.sentence(func(rd *reading) string { return driftWords(rd.late[r.index][k], r.layer.Pulse) })
	d.Groups = sizes(cy.Groups)
	if cy.Sounds < cy.Length {
		d.Cut = "cut after " + pulses(cy.Sounds, r.unit).Mixed()
	}
	return d
}

// driftWords says how a head lies to the barline: "2 eighths late".
func driftWords(l rows.Lateness, pulse beat.Pulse) string {
	switch l.Kind {
	case rows.Late:
		return pulsesWords(l.Pulses, pulse) + " late"
	case rows.Early:
		return pulsesWords(l.Pulses, pulse) + " early"
	case rows.Home:
		return "on the barline again"
	}
	return "on the barline"
}

// pulsesWords says any number of a pulse: "2 eighths", "2 1/2 eighths", "1/2 of
// an eighth".
func pulsesWords(n beat.Span, pulse beat.Pulse) string {
	if whole, ok := n.IsWhole(); ok {
		return beat.CountOf(whole, pulse, beat.American)
	}
	if n.Cmp(beat.Of(1, 1)) > 0 {
		return n.Mixed() + " " + pulse.Name(2, beat.American)
	}
	name := pulse.Name(1, beat.American)
	if strings.HasPrefix(name, "eighth") {
		return n.String() + " of an " + name
	}
	return n.String() + " of a " + name
}

// pulses is how many pulses a time is.
func pulses(t, pulse beat.Time) beat.Span { return beat.Of(int64(t), int64(pulse)) }
