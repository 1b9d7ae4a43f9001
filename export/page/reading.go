package page

import (
	"fmt"
	"strings"

	"tieover/layout/rows"
	"tieover/score"
	"tieover/score/beat"
)

// Felt is a section in the bars that somebody may feel in it.
type Felt struct {
	Name     string         // of the choice: "felt from Marimba, 3+3+2+2"
	Note     string         // where those bars begin
	Downbeat beat.Time      // where bar 1 begins, in the section
	Section  *score.Section // see Section.Felt
	Chart    string         // in these bars, with its legend
}

// reading is one way to bar a section: as it is written, which comes first, or as
// it is felt.
type reading struct {
	s     *score.Section
	name  string // "" for what is written
	note  string
	chart string
	bars  []score.Bar
	late  [][]rows.Lateness // of each row's cycles
}

// addReading reads lateness from the chart's rows, so that chart and figure say
// the same; what is written also tells which groupings change.
func (v *view) addReading(rd reading) {
	for b := range rd.s.Bars() {
		b.Length = min(b.Length, v.end-b.Start)
		if b.Length > 0 {
			rd.bars = append(rd.bars, b)
		}
	}
	for i := range v.rows {
		rd.late = append(rd.late, make([]rows.Lateness, len(v.rows[i].cycles)))
	}
	next := make([]int, len(v.rows))
	for b := range rows.Of(rd.s, nil).Bars() {
		for i, r := range b.Rows {
			for _, start := range r.Starts {
				if start.Number == 0 {
					continue
				}
				at := b.Start + start.At
				cycles := v.rows[i].cycles
				for next[i] < len(cycles) && max(cycles[next[i]].Start, v.rows[i].layer.Enters) < at {
					next[i]++
				}
				if next[i] < len(cycles) {
					rd.late[i][next[i]] = start.Lateness
					cycles[next[i]].shown = start.Groups
				}
			}
		}
	}
	v.readings = append(v.readings, rd)
}

// perReading draws what differs from reading to reading; all but what is written
// is hidden until it is chosen.
func (v *view) perReading(c *canvas, draw func(c *canvas, rd *reading)) {
	if len(v.readings) == 1 {
		draw(c, &v.readings[0])
		return
	}
	for k := range v.readings {
		hidden := ""
		if k > 0 {
			hidden = ` hidden=""`
		}
		c.put(`<g data-reading="%d"%s>`+"\n", k, hidden)
		draw(c, &v.readings[k])
		c.put("</g>\n")
	}
}

// sentence says something in the words of each reading.
func (v *view) sentence(words func(rd *reading) string) []string {
	var all []string
	for k := range v.readings {
		all = append(all, words(&v.readings[k]))
	}
	return all
}

// where says where a moment falls; what stands at the end has no bar after it,
// unless a bar goes on there.
func (rd *reading) where(t, end beat.Time) string {
	if t >= end && (rd.name == "" || rd.s.OnBarline(t)) {
		return fmt.Sprintf("the end of bar %d", rd.bars[len(rd.bars)-1].Number)
	}
	return rd.s.Where(t).String()
}

// compared says where a moment falls in each reading, and beside where it is felt
// where it is written.
func (v *view) compared(t beat.Time) []string {
	written := v.readings[0].where(t, v.end)
	return v.sentence(func(rd *reading) string {
		if rd.name == "" {
			return written
		}
		return rd.where(t, v.end) + ", written " + written
	})
}

// labels are what a drawing is called in each reading, as attributes.
func labels(sentences []string) string {
	text := ` aria-label="` + esc(sentences[0]) + `"`
	if len(sentences) > 1 {
		text += ` data-said="` + esc(strings.Join(sentences, "\n")) + `"`
	}
	return text
}
