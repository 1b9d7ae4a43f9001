package chart

import (
	"bufio"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"tieover/export/chart/terminal"
	"tieover/layout/rows"
	"tieover/score"
	"tieover/score/beat"
)

// The drift view sets one layer's cycles under one another, each at its place
// in the bar in which it begins, so that a constant drift is a diagonal. A
// cycle that is longer than the line is cut off there, which two dots show.

// drift writes the view of every layer of a section.
func (s *setter) drift(p *score.Piece, section int, said explained) error {
	if section > 0 {
		fmt.Fprintln(s.out)
	}
	for i, n := range s.chart.Layers {
		if s.chart.Section.Layers[n].Line != nil {
			continue // a free line has no cycles
		}
		alone := newSetter(s.out, s.opt, rows.Of(s.chart.Section, []int{n}))
		alone.letters[0] = s.letters[i]
		alone.note = s.note
		v := driftView{s: alone, layer: n, letter: s.letters[i]}
		if err := v.fit(); err != nil {
			return err
		}
		v.rows(bufio.NewWriter(io.Discard)) // to see what the legend must explain
		v.s.out = s.out
		v.heading(p, said)
		v.rows(s.out)
		if i+1 < len(s.chart.Layers) {
			fmt.Fprintln(s.out)
		}
	}
	return nil
}

// driftView is the view of one layer.
type driftView struct {
	s      *setter
	layer  int
	letter string
	label  int  // columns before the first barline
	late   bool // some cycle is late or early
	cutOff bool // some cycle is cut off at the line's end
}

// fit chooses two columns a pulse, or one if a bar has no room for that.
func (v *driftView) fit() error {
	bars := v.s.chart.BarCount()
	last := strconv.Itoa(v.s.chart.Section.Bar(bars).Number)
	v.label = len("   #  ") + max(len("bar"), len(last)+1+v.longestLabel()) + len("  ") + v.longestLateness() + 1
	room := v.s.opt.Width - v.label - 1
	for _, apart := range []int{2, 1} {
		v.s.scale = newScale(v.s.chart, apart, 1, 1<<30)
		v.s.scale.pad = 0
		if v.s.scale.widest(v.s.chart) <= room {
			return nil
		}
	}
	name, bar := v.s.chart.Section.Layers[v.layer].Name, v.s.scale.widest(v.s.chart)
	needs := v.label + 1 + bar
	if needs > Widest {
		return fmt.Errorf("layer %q: a bar needs %d columns in the drift view, more than the %d that a line may have; draw it with the chart, or leave the layer out by --layers",
			name, needs, Widest)
	}
	return fmt.Errorf("layer %q: a bar needs %d columns in the drift view; give --width %d or more", name, bar, needs)
}

// longestLabel is how many columns labels take; longer ones are clipped.
func (v *driftView) longestLabel() int {
	labels := []string{v.s.sum.Last.Label}
	for _, r := range v.s.sum.Realignments {
		labels = append(labels, r.Label)
	}
	for post := range v.s.chart.Section.Signposts() {
		if post.Kind == score.Marked {
			labels = append(labels, post.Text)
		}
	}
	longest := 0
	for _, l := range labels {
		longest = max(longest, terminal.Width(v.s.spell(l)))
	}
	return min(longest, mostLabel)
}

const mostLabel = 10

// longestLateness is how many columns it takes to say that a head is almost a
// bar early, or as early as the layer begins.
func (v *driftView) longestLateness() int {
	l := v.s.chart.Section.Layers[v.layer]
	unit := l.Unit
	bar := slices.Max(v.s.chart.BarLengths())
	words := "early " + strconv.FormatInt(max(int64(bar/unit), -int64(l.Offset)), 10)
	if part := unit / beat.Time(beat.GCD(int64(unit), int64(v.s.step))); part > 1 {
		words += fmt.Sprintf(" %d/%d", part-1, part)
	}
	return max(len(words), len("late 12 1/2"))
}

func (v *driftView) heading(p *score.Piece, said explained) {
	if v.s.opt.Bare {
		return
	}
	section := v.s.chart.Section
	l := section.Layers[v.layer]
	items := []string{strings.ToUpper(v.s.spell(p.Title))}
	if section.Name != "" {
		items[0] += ", " + v.s.spell(section.Name)
	}
	items = append(items, fmt.Sprintf("%s %s: %s against %s", v.letter, v.s.spell(l.Name), rows.Grouping(l, 12), section.Meter))
	for _, text := range terminal.Wrap(items, "   ", v.s.opt.Width) {
		fmt.Fprintln(v.s.out, text)
	}
	for _, text := range v.s.noted() {
		fmt.Fprintln(v.s.out, text)
	}
	all := append(v.s.struckLegend(), v.s.soundingLegend()...)
	all = when(all, v.s.sum.Highest >= 10 || v.s.shortensBeats(), "0 for 10 and so on")
	all = when(all, v.s.sum.Signs[rows.Silent], ". silent")
	all = when(all, v.late, "late, early: in pulses of the layer")
	all = when(all, v.cutOff, ".. the cycle goes on")
	for _, text := range terminal.Wrap(said.add(all), "   ", v.s.opt.Width) {
		fmt.Fprintln(v.s.out, text)
	}
	fmt.Fprintln(v.s.out)
}
