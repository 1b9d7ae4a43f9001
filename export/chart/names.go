package chart

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tieover/export/chart/terminal"
	"tieover/score"
)

// toneNames writes the tones of an attack, one a line, highest first. A layer
// without pitches has none.
func (s *setter) toneNames(layer int, tones []score.Tone) []string {
	var names []string
	if l := s.chart.Section.Layers[layer]; l.Series == nil && l.Line == nil {
		return nil
	}
	for _, t := range highestFirst(tones) {
		switch {
		case t.IsPitched():
			names = append(names, t.String())
		case t.Drum > 0 && int(t.Drum) <= len(s.drums[layer]):
			names = append(names, s.drums[layer][t.Drum-1])
		}
	}
	return names
}

// highestFirst puts the tones of a chord in the order of notation, in whichever
// order the spec names them. Of drum sounds, which have no height, the last named
// stands on top.
func highestFirst(tones []score.Tone) []score.Tone {
	sorted := slices.Clone(tones)
	slices.Reverse(sorted)
	slices.SortStableFunc(sorted, func(a, b score.Tone) int {
		if !a.IsPitched() || !b.IsPitched() {
			return 0
		}
		return b.Key() - a.Key()
	})
	return sorted
}

// longestName is the width of the widest tone name of the section.
func (s *setter) longestName() int {
	longest := 0
	for _, i := range s.chart.Layers {
		for _, tones := range s.chart.Section.Layers[i].Chords() {
			_, struck := tones.Led()
			for _, name := range s.toneNames(i, struck) {
				longest = max(longest, terminal.Width(name))
			}
		}
	}
	return longest
}

// codeDrums gives every drum sound of the shown layers a code of two letters,
// the initials of two words or the beginning of one, with a number where two
// sounds would share one.
func (s *setter) codeDrums() {
	s.drums = map[int][]string{}
	taken := map[string]string{} // code to name
	for _, i := range s.chart.Layers {
		drums := s.chart.Section.Layers[i].Instrument.Drums
		codes := make([]string, len(drums))
		for d, drum := range drums {
			code := initials(drum.Name)
			for n := 2; taken[code] != "" && taken[code] != drum.Name; n++ {
				code = initials(drum.Name)[:1] + strconv.Itoa(n)
			}
			taken[code] = drum.Name
			codes[d] = code
		}
		s.drums[i] = codes
	}
}

func initials(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r == ' ' || r == '-' })
	if len(words) > 1 {
		return words[0][:1] + words[1][:1]
	}
	return (name + "  ")[:2]
}

// drumLegend explains the codes of the sounds that are struck.
func (s *setter) drumLegend() []string {
	if !s.opt.Pitches {
		return nil
	}
	var items []string
	seen := map[string]bool{}
	for _, i := range s.chart.Layers {
		l := s.chart.Section.Layers[i]
		used := map[int]bool{}
		for _, tones := range l.Chords() {
			for _, t := range tones {
				used[int(t.Drum)] = true
			}
		}
		for d, drum := range l.Instrument.Drums {
			item := fmt.Sprintf("%s = %s", s.drums[i][d], drum.Name)
			if used[d+1] && !seen[item] {
				items = append(items, item)
				seen[item] = true
			}
		}
	}
	return items
}
