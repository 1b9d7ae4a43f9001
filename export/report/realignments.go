package report

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"tieover/score"
)

// realignments prints those of the section, as many as a table may have.
func (t *text) realignments() {
	var rows [][]string
	all := 0
	for r := range t.s.Realignments() {
		all++
		if t.o.Rows == 0 || all <= t.o.Rows {
			rows = append(rows, t.realignment(r))
		}
	}
	if all == 0 {
		return
	}
	t.gap()
	t.table([]string{"realignment", "where", "clock>", "", "cycles that begin"}, rows)
	t.more(all-len(rows), "realignment")
}

func (t *text) realignment(r score.Realignment) []string {
	name := fmt.Sprint(r.Index)
	if r.Label != "" && !t.unnamed {
		name += " " + shorten(r.Label, 16)
	}
	on := "on the barline"
	if !r.OnBarline {
		on = "inside the bar"
	}
	if r.Time >= t.s.Length {
		on = "the end"
	}
	var cycles []string
	for i, l := range t.s.Set {
		said := fmt.Sprintf("%s %d", numberedName(short(t.s.Layers[l])), r.Cycles[i])
		for _, silent := range r.Silent {
			if silent == l {
				said += " (silent)"
			}
		}
		cycles = append(cycles, said)
	}
	return []string{name, t.s.Where(r.Time).String(), t.clock(r.Time), on, strings.Join(cycles, ", ")}
}

// numberedName sets a name off from the number that follows it, where it ends in
// a digit itself.
func numberedName(name string) string {
	if last, _ := utf8.DecodeLastRuneInString(name); unicode.IsDigit(last) {
		return name + ":"
	}
	return name
}

// short is a layer's short name, or as much of it as a table has room for.
func short(l *score.Layer) string {
	name := l.Short
	if name == "" {
		name = l.Name
	}
	return shorten(name, 16)
}
