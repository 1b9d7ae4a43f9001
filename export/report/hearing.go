package report

import (
	"fmt"
	"strings"

	"tieover/export/chart/terminal"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// easily counts the pairs of layers that are easily confused.
func (t *text) easily() int {
	n := 0
	for _, a := range t.f.Alike {
		if a.Easily() {
			n++
		}
	}
	return n
}

// hearings says what else each grouping may be heard as, and where the
// realignments then seem to fall.
func (t *text) hearings() {
	var all []analysis.Hearing
	for _, l := range t.f.Layers {
		all = append(all, l.Hearings()...)
	}
	if !t.o.listed && len(all)+t.easily() <= mostNamed {
		all = nil // the opening has them all
	}
	if len(all)+len(t.f.Alike) == 0 {
		return
	}
	t.heading("What the ear may be told")
	for _, h := range all {
		t.hearing(h)
	}
	t.alike()
}

// alike lists the pairs that share sounds or register, with what would set
// them apart.
func (t *text) alike() {
	shown := t.shown(len(t.f.Alike))
	for _, a := range t.f.Alike[:shown] {
		sentence := t.confused(a)
		if !a.Easily() {
			sentence = t.nearest(a)
		}
		t.item(sentence + distinguishers(a))
	}
	t.more(len(t.f.Alike)-shown, "pair")
}

// distinguishers names what could set two layers apart that is the same in both.
func distinguishers(a analysis.Alike) string {
	by := []string{"another register"}
	if a.Side {
		by = append(by, "opposite sides (pan)")
	}
	if a.Touch {
		by = append(by, "another touch")
	}
	if a.Instrument {
		by = append(by, "another instrument")
	}
	return fmt.Sprintf(" What would set them apart: %s.", beat.Listed(by, "or"))
}

// heardAs says how a layer may be heard, as the beginning of a sentence.
func (t *text) heardAs(h analysis.Hearing) string {
	begins := t.begins(h.Layer)
	if begins != "" {
		begins += ","
	}
	return fmt.Sprintf("%s%s may be heard as %s (%s)", t.s.Layers[h.Layer].Name, begins, terminal.Clip(beat.Sum(h.Groups), 40), strings.Join(reasons(h), "; "))
}

// moved says how far the felt downbeat of a hearing is from the written one.
func (t *text) moved(h analysis.Hearing) string {
	return t.lateness(beat.Time(h.Turn)*h.Unit, t.s.Layers[h.Layer].Pulse)
}

// feltPlaces sums up where the realignments fall in a hearing.
type feltPlaces struct {
	count int
	first analysis.Felt
	alike bool           // all are at one place of the heard cycle
	inBar *analysis.Felt // the first that has a place in a felt bar
}

func (p *feltPlaces) add(f analysis.Felt) {
	if p.count++; p.count == 1 {
		p.first, p.alike = f, true
	}
	p.alike = p.alike && f.Pulse == p.first.Pulse && f.OnPulse == p.first.OnPulse
	if p.inBar == nil && f.Metric {
		p.inBar = &f
	}
}

func (t *text) hearing(h analysis.Hearing) {
	heard := t.heardAs(h) + fmt.Sprintf(": the felt downbeat comes %s than the written one.", t.moved(h))
	var places feltPlaces
	var rows [][]string
	for f := range analysis.FeltRealignments(t.s, h) {
		if places.add(f); t.fits(places.count) {
			rows = append(rows, t.felt(f))
		}
	}
	sentence := "The realignments then fall on different pulses of the felt cycle."
	if places.alike {
		every := "Every realignment"
		if places.count == 1 {
			every = "The realignment"
		}
		sentence = fmt.Sprintf("%s then falls %s.", every, feltPlace(places.first))
	}
	switch {
	case places.count == 0:
		t.item(heard)
		return
	case !t.o.listed:
		t.item(heard + " " + sentence + seemsAt(places.inBar))
		return
	}
	t.item(heard)
	t.para(4, 4, sentence+" In bars counted from the felt downbeat:")
	for i, row := range rows {
		if !places.alike {
			row[3] = strings.TrimPrefix(row[3]+"; "+row[4], "; ")
		}
		rows[i] = row[:4]
	}
	t.table([]string{"realignment>", "is at", "seems to be at", ""}, rows)
	t.more(places.count-len(rows), "realignment")
	t.gap()
}

// seemsAt adds where the first realignment that falls into a felt bar seems to be.
func seemsAt(f *analysis.Felt) string {
	if f == nil {
		return ""
	}
	return fmt.Sprintf(" In bars counted from there, realignment %d seems to be at %s.", f.Index, f.Where)
}

// reasons says why a listener may hear it so.
func reasons(h analysis.Hearing) []string {
	var all []string
	if h.LongFirst {
		all = append(all, "long groups first")
	}
	for _, p := range h.Patterns {
		all = append(all, fmt.Sprintf("%s, %s", p.Name, p.Source.Short))
	}
	return all
}

func (t *text) felt(f analysis.Felt) []string {
	seems, how := "before the first felt downbeat", ""
	switch {
	case !f.Metric:
		seems = "(the meter changes)"
		if f.Early {
			seems = "before the first felt downbeat"
		}
	case f.Barline:
		seems, how = f.Where.String(), "on a barline"
	case f.OnBeat:
		seems, how = f.Where.String(), "on a beat"
	default:
		seems, how = f.Where.String(), "off the beat"
	}
	return []string{fmt.Sprint(f.Index), t.s.Where(f.Time).String(), seems, how, inFelt(f)}
}

// feltPlace says where in the felt cycle every realignment falls.
func feltPlace(f analysis.Felt) string {
	on, group := "on", fmt.Sprintf("in its group %d", f.Group)
	if !f.OnPulse {
		on = "inside"
	}
	if f.OnGroup {
		group = fmt.Sprintf("where its group %d begins", f.Group)
	}
	return fmt.Sprintf("%s pulse %d of the felt cycle, %s", on, f.Pulse, group)
}

// inFelt says where in the felt cycle a realignment falls, for a table.
func inFelt(f analysis.Felt) string {
	sentence := fmt.Sprintf("pulse %d, in group %d", f.Pulse, f.Group)
	if f.OnGroup {
		sentence = fmt.Sprintf("pulse %d, starts group %d", f.Pulse, f.Group)
	}
	if !f.OnPulse {
		return "inside " + sentence
	}
	return sentence
}
