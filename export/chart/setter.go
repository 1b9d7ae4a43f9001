package chart

import (
	"bufio"
	"slices"
	"strconv"
	"strings"

	"tieover/export/chart/terminal"
	"tieover/layout/rows"
	"tieover/score"
	"tieover/score/beat"
)

// setter sets one section.
type setter struct {
	out      *bufio.Writer
	opt      Options
	chart    *rows.Chart
	sum      *rows.Summary
	letters  []string // of the shown layers
	heads    []string // what stands before each layer's row
	label    int      // columns before the first barline
	scale    scale
	families []rows.Family
	step     beat.Time
	plain    beat.Time        // what the count is spoken in
	note     string           // what is said of the section under its heading
	closing  []string         // more closing lines
	drums    map[int][]string // codes of the drum sounds, by layer
	slashing bool             // some layer is written in slashes somewhere

	scratch []byte // of the line at hand

	landing      *rows.Landing // nil when the last bar is not shown, or the end lies inside it
	landingWidth int           // columns of its number and label
}

func newSetter(out *bufio.Writer, opt Options, ch *rows.Chart) *setter {
	s := &setter{out: out, opt: opt, chart: ch, families: ch.Families(), step: ch.Step(), plain: ch.Plain(), slashing: everSlashed(ch)}
	s.sum = ch.Summary(s.shown())
	for i := range ch.Layers {
		s.letters = append(s.letters, score.LayerLetter(i))
	}
	s.nameRows()
	apart, sign := 2, s.signWidth()
	if opt.Pitches {
		s.codeDrums()
		apart = max(apart, s.longestName()+1)
	}
	if opt.Sung {
		apart = max(apart, s.longestWord()+1)
	}
	s.scale = newScale(ch, apart, sign, s.room())
	if opt.Hide.Has(rows.HideTogether) && s.scale.exact && s.scale.num == 1 && 2*s.scale.col(ch.LongestBeat()) <= s.room()-4 {
		s.scale.num = 2 // blanks to write in do not touch
	}
	s.tighten()
	return s
}

// tighten gives up one of the two blanks before the rows where that makes room
// for one more bar.
func (s *setter) tighten() {
	bar := s.scale.widest(s.chart) + 1
	if !s.opt.Compact && (s.room()+1)/bar > s.room()/bar {
		s.label--
	}
}

// nameRows fits the names of the layers into at most a third of the row, with
// two blanks after the longest, one at least after the names of the counts.
func (s *setter) nameRows() {
	most := max(12, s.opt.Width/3)
	s.label = 1
	if len(s.chart.Layers) > 1 && !s.opt.Compact {
		s.label = terminal.Width(s.togetherHead())
	}
	for i, n := range s.chart.Layers {
		l := s.chart.Section.Layers[n]
		head := s.letters[i]
		if !s.opt.Compact && l.Name != head {
			name := s.spell(l.Name)
			if terminal.Width(head)+1+terminal.Width(name) > most-2 {
				name = s.spell(l.Short)
			}
			head = terminal.Clip(head+" "+name, most-2)
		}
		s.heads = append(s.heads, head)
		s.label = max(s.label, terminal.Width(head))
	}
	s.label += 2
	if len(s.chart.Layers) > 1 {
		s.label = max(s.label, terminal.Width(s.togetherHead())+1)
	}
	for _, f := range s.families {
		s.label = max(s.label, terminal.Width(s.countHead(f))+1)
	}
	if !s.opt.Compact && !s.opt.Hide.Has(rows.HideStarts) {
		for _, n := range s.chart.Layers {
			s.label = max(s.label, len(strconv.FormatInt(longest(s.chart.Section.Layers[n]), 10))+2)
		}
	}
}

// longest is how many pulses the longest cycle has that the spec writes out.
func longest(l *score.Layer) (pulses int64) {
	patterns := slices.Clone(l.Patterns)
	for _, e := range l.Except {
		if e.Pattern != nil {
			patterns = append(patterns, *e.Pattern)
		}
	}
	for _, p := range patterns {
		sum := int64(0)
		for _, g := range p.Groups {
			sum += int64(g.Size)
		}
		pulses = max(pulses, sum)
	}
	return pulses
}

// room is how many columns a row has for cells and barlines.
func (s *setter) room() int { return s.opt.Width - s.label - 1 }

// signWidth is the width of the widest sign in the composite.
func (s *setter) signWidth() int {
	if len(s.chart.Layers) == 1 {
		return 1
	}
	return max(terminal.Width(s.letters[len(s.letters)-1]), terminal.Width(strconv.Itoa(s.sum.Most)))
}

func (s *setter) hasTogether() bool {
	return len(s.chart.Layers) > 1 && s.scale.exact && !s.opt.Hide.Has(rows.DropTogether)
}

// hasGaps reports whether the gaps of the composite are written: only where a
// step has two columns, so that two gaps of one step stay apart.
func (s *setter) hasGaps() bool {
	return s.hasTogether() && !s.opt.Compact && !s.opt.Hide.Has(rows.HideTogether) && s.scale.num >= 2 && s.scale.den == s.step
}

// saysTogether reports whether the count of what is struck stands under the
// composite: where tuplets leave no room for gaps.
func (s *setter) saysTogether() bool {
	return s.hasTogether() && !s.hasGaps() && len(s.families) > 1 && !s.opt.Compact && !s.opt.Hide.Has(rows.HideTogether)
}

// gap writes how many steps a gap has, or + where the number does not fit before
// the barline.
func (s *setter) gap(t beat.Time, room int) string {
	text := strconv.FormatInt(int64(t/s.step), 10)
	if len(text) > room {
		return "+"
	}
	return text
}

// spell prepares a name or text from the spec.
func (s *setter) spell(text string) string {
	return terminal.Spell(text, s.opt.ASCII)
}

// startWords says a cycle's start in the longest words that have room, at the
// least in a bare number or word that fits the line; else "".
func (s *setter) startWords(start *rows.Start, room, line int) string {
	bare := "#" + strconv.Itoa(start.Number)
	full := bare
	switch {
	case start.Leaves:
		bare, full = "leaves", "leaves"
	case start.Number == 0:
		bare, full = "enters", "enters"
	case start.Enters:
		full += " enters"
	case start.Restart:
		full += " restart"
	}
	late, groups := "", ""
	if start.Number > 0 && !start.Leaves {
		if groups = rows.Sizes(start.Groups, 8); groups != "" {
			groups = " " + groups
		}
		if late = start.Lateness.Words(); late != "" {
			late = " " + late
		}
	}
	for _, form := range [...]string{full + groups + late, full + late, full} {
		if terminal.Width(form) <= room {
			return form
		}
	}
	if terminal.Width(bare) <= max(room, line) {
		return bare
	}
	return ""
}

func blank(n int) string { return strings.Repeat(" ", n) }
