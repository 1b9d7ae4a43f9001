package report

import (
	"fmt"
	"slices"
	"strings"

	"tieover/score/analysis"
	"tieover/score/analysis/grouping"
	"tieover/score/beat"
)

// hearings says what else each grouping may be heard as, and where the
// realignments then seem to fall.
func (t *text) hearings() {
	if !slices.ContainsFunc(t.f.Layers, func(l analysis.Layer) bool { return len(l.Groups) > 0 }) {
		return
	}
	t.heading("What the ear may be told")
	found, single, lists := false, false, false
	for i, l := range t.f.Layers {
		single, lists = single || len(l.Groups) == 1, lists || len(l.Groups) > 1
		for _, h := range l.Hearings() {
			found = true
			t.hearing(i, h)
		}
	}
	switch {
	case !single:
		t.item("Nothing: only loops of a single grouping are compared with more familiar ones.")
	case !found && lists:
		t.item("Nothing else: each loop of a single grouping begins with its long groups, and none is a named pattern begun elsewhere.")
	case !found:
		t.item("Nothing else: each grouping begins with its long groups, and none is a named pattern begun elsewhere.")
	}
}

func (t *text) hearing(layer int, h analysis.Hearing) {
	l := t.s.Layers[layer]
	t.item(fmt.Sprintf("%s%s may be heard as %s (%s): the felt downbeat comes %s than the written one.",
		l.Name, strings.Replace(t.begins(layer), ", as it begins", ", as it begins,", 1), shorten(grouping.Join(h.Groups), 40),
		strings.Join(reasons(h), "; "), t.lateness(beat.Time(h.Turn)*h.Unit, l.Pulse)))
	var rows [][]string
	all, alike, first := 0, true, analysis.Felt{}
	for f := range analysis.FeltRealignments(t.s, layer, h) {
		all++
		if all == 1 {
			first = f
		}
		alike = alike && inFelt(f) == inFelt(first)
		if t.o.Rows == 0 || all <= t.o.Rows {
			rows = append(rows, t.felt(f))
		}
	}
	if all == 0 {
		return
	}
	said := "The realignments then fall on different pulses of the felt cycle. In bars counted from the felt downbeat:"
	if alike {
		every := "Every realignment"
		if all == 1 {
			every = "The realignment"
		}
		said = fmt.Sprintf("%s then falls %s. In bars counted from the felt downbeat:", every, always(first))
	}
	for i, row := range rows {
		if !alike {
			row[3] = strings.TrimPrefix(row[3]+"; "+row[4], "; ")
		}
		rows[i] = row[:4]
	}
	t.para(4, 4, said)
	t.table([]string{"realignment>", "is at", "seems to be at", ""}, rows)
	t.more(all-len(rows), "realignment")
	t.gap()
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

// always says where in the felt cycle every realignment falls.
func always(f analysis.Felt) string {
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
	said := fmt.Sprintf("pulse %d, in group %d", f.Pulse, f.Group)
	if f.OnGroup {
		said = fmt.Sprintf("pulse %d, starts group %d", f.Pulse, f.Group)
	}
	if !f.OnPulse {
		return "inside " + said
	}
	return said
}
