package chart

import (
	"fmt"
	"strconv"
	"strings"

	"tieover/layout/rows"
	"tieover/score/beat"
)

// explained is what the legends so far have said, by what they speak of.
type explained map[string]string

// add takes what a section must explain and returns what still has to be said:
// what is new, and what another section has given another meaning.
func (e explained) add(items []string) []string {
	var left []string
	for _, item := range items {
		about, _, _ := strings.Cut(item, ":")
		switch {
		case about == "": // ": the bar goes on"
			about = item
		case strings.HasPrefix(item, "1 column"), strings.HasPrefix(item, "rows of"):
			about = "unit"
		}
		if e[about] != item {
			left = append(left, item)
			e[about] = item
		}
	}
	return left
}

// legend lists what the reader must know, and only of signs that appear.
func (s *setter) legend() []string {
	items := append(s.struckLegend(), s.movedLegend()...)
	items = append(items, s.soundingLegend()...)
	items = when(items, s.shortens() || s.shortensBeats(), "0 for 10 and so on where there is no room")
	items = when(items, s.sum.Signs[rows.Silent], ". silent")
	items = when(items, s.sum.Held && !s.opt.Hide.Has(rows.HideGroups), "~| held over the barline")
	items = append(items, s.startsLegend()...)
	items = when(items, s.slashing, slash+" a beat written as a slash")
	items = when(items, s.hasTogether(), s.togetherLegend())
	items = when(items, s.saysTogether(), s.sayLegend())
	items = when(items, s.hasGaps() && s.gap(s.sum.Longest, int(s.scale.num)) == "+", "+ a gap too long to write")
	items = when(items, s.anyBroken(), ": the bar goes on in the next row")
	items = append(items, s.touchLegend()...)
	items = append(items, s.tupletLegend()...)
	items = append(items, s.unitLegend())
	return append(items, s.drumLegend()...)
}

// when adds an item to a legend if it applies.
func when(items []string, applies bool, item string) []string {
	if applies {
		return append(items, item)
	}
	return items
}

func (s *setter) struckLegend() []string {
	hide := s.opt.Hide
	if hide.Has(rows.HideGroups) {
		text := "x struck"
		if !hide.Has(rows.HideCycles) {
			text = "X x struck (X = cycle begins)"
		}
		return when([]string{text}, s.sum.Highest > 0, "- still sounding")
	}
	cycles := s.sum.Signs[rows.Cycle] && !hide.Has(rows.HideCycles)
	seen := when(nil, cycles, "X")
	seen = when(seen, s.sum.Signs[rows.Group] || s.sum.Signs[rows.Cycle] && !cycles, "x")
	seen = when(seen, s.sum.Signs[rows.Inner], "o")
	means := when(nil, cycles, "X = cycle begins")
	means = when(means, s.sum.Signs[rows.Inner], "o = inside a group")
	if len(seen) == 0 {
		return nil
	}
	text := strings.Join(seen, " ") + " struck"
	if len(means) > 0 {
		text += " (" + strings.Join(means, ", ") + ")"
	}
	return []string{text}
}

// movedLegend names the layers in which X is not where the cycle starts.
func (s *setter) movedLegend() []string {
	var moved, turned []string
	for i, n := range s.chart.Layers {
		if !s.chart.Moves(n) {
			continue
		}
		moved = append(moved, s.letters[i])
		if s.chart.Turns(n) {
			turned = append(turned, s.letters[i])
		}
	}
	if len(moved) == 0 || s.opt.Hide.Has(rows.HideCycles) {
		return nil
	}
	items := []string{"in " + strings.Join(moved, ", ") + " X = group 1, which moves inside the cycle"}
	return when(items, len(turned) > 0, "in "+strings.Join(turned, ", ")+", when played backwards, X = the group before group 1")
}

// startsLegend explains the words over a row and the number under its name.
func (s *setter) startsLegend() (items []string) {
	if s.opt.Hide.Has(rows.HideStarts) {
		return nil
	}
	items = when(items, s.sum.Numbers, "#2 second cycle since the last realignment or restart")
	late, early := s.sum.Heads[rows.Late], s.sum.Heads[rows.Early]
	items = when(items, late && early, "late 2, early 2: X is 2 pulses after, before the barline")
	items = when(items, late && !early, "late 2: X is 2 pulses after the barline")
	items = when(items, early && !late, "early 2: X is 2 pulses before the barline")
	items = when(items, s.sum.Heads[rows.Home], "on 1: X is at the barline again")
	return when(items, s.sum.Pulses && !s.opt.Compact, "under a name: pulses of its cycle")
}

func (s *setter) soundingLegend() []string {
	if s.sum.Highest == 0 || s.opt.Hide.Has(rows.HideGroups) {
		return nil
	}
	first := max(s.sum.Lowest, 2)
	text := strconv.Itoa(first)
	if s.sum.Highest > first {
		text += " " + strconv.Itoa(first+1)
	}
	items := when(nil, s.sum.Highest >= 2, text+" still sounding, counted in its group")
	return when(items, s.sum.Lowest == 1, "1 still sounding as a group begins")
}

// shortensBeats reports whether the number of some beat past 9 has no room.
func (s *setter) shortensBeats() bool {
	for i, said := range s.chart.Counts(s.twoColumns()) {
		room := s.countRoom(said, s.scale.bar(s.chart.BarLengths()[i]))
		for _, y := range said {
			if lastDigits(y.Text, room) != y.Text {
				return true
			}
		}
	}
	return false
}

// shortens reports whether some count past 9 has no room beside its neighbor.
func (s *setter) shortens() bool {
	if s.opt.Hide.Has(rows.HideGroups) {
		return false
	}
	for i, n := range s.chart.Layers {
		if s.sum.Layers[i].Highest >= 10 && s.scale.col(s.chart.Finest(n)) < 3 {
			return true
		}
	}
	return false
}

func (s *setter) togetherLegend() string {
	last := s.letters[len(s.letters)-1]
	alone := s.letters[0] + "-" + last
	if n := len(s.letters); n <= 4 {
		alone = strings.Join(s.letters, ", ")
	}
	if s.opt.Hide.Has(rows.HideTogether) {
		return "_ to fill in: " + alone + " = one alone, a number = so many at once, . = nobody"
	}
	text := "together: "
	switch {
	case s.sum.Most == 2 && len(s.letters) == 2:
		text += "2 = both, "
	case s.sum.Most == 2:
		text += "2 = two at once, "
	case s.sum.Most == 3:
		text += "2, 3 = so many at once, "
	case s.sum.Most > 3:
		text += fmt.Sprintf("2 to %d = so many at once, ", s.sum.Most)
	}
	return text + alone + " = one alone"
}

// sayLegend explains the count under the composite; a figure may strike between
// two counts.
func (s *setter) sayLegend() string {
	for _, n := range s.chart.Layers {
		if l := s.chart.Section.Layers[n]; len(l.Figures) > 0 || l.Line != nil {
			return "say: the count of what is struck (- between two counts)"
		}
	}
	return "say: the count of what is struck"
}

// tupletLegend explains the rows that count tuplets: how triplets are said, and
// what all others are, and triplets of two kinds.
func (s *setter) tupletLegend() []string {
	var items []string
	said := ""
	for _, f := range s.families[1:] {
		if f.Name != "3s" {
			items = append(items, f.Name+": "+f.Meaning)
		}
		if f.Actual == 3 {
			said = "1 t l = one-trip-let"
		}
		if f.Name == "3s" {
			said = "3s: " + said
		}
	}
	if said != "" {
		items = append(items, said)
	}
	return items
}

// unitLegend says what one step of the gaps is, and how wide it is drawn when
// that is not two columns.
func (s *setter) unitLegend() string {
	if !s.scale.exact {
		return "rows of different pulses are each spaced on their own: only barlines stand under one another"
	}
	name, ok := beat.NoteName(s.span(s.step), beat.American)
	if !ok {
		name = s.span(s.step).String() + " of a whole note"
	}
	switch {
	case s.scale.num == 1:
		return "1 column = " + name
	case s.scale.num == 2 && s.scale.pad == 0:
		return "unit: " + name
	}
	return fmt.Sprintf("unit: %s = %d columns", name, s.scale.num)
}

// anyBroken reports whether some bar is wider than a row.
func (s *setter) anyBroken() bool { return s.scale.widest(s.chart)+1 > s.room() }
