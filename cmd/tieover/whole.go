package main

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tieover/export/chart"
	"tieover/layout/rows"
	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// versions is a section with its cut loops beside the same loops whole.
type versions struct {
	section  *score.Section
	twins    []score.Twin
	partings []parting // of all, in time order
}

// parting is what one loop's two versions do at a moment.
type parting struct {
	twin int // index into twins
	analysis.Parting
}

// versionsOf puts the other version of each loop beside it that a cut
// really makes another: those that the spec cuts, whole; or, where it cuts none,
// all, cut every so many bars. A section without any is returned as it is.
func versionsOf(s *score.Section, every int) (versions, error) {
	asIs := versions{section: s}
	if !s.IsCut() && (every == 0 || every >= s.BarCount()) {
		return asIs, nil
	}
	both, twins, problems := s.Beside(every, nil)
	if len(problems) > 0 {
		return asIs, fmt.Errorf("the other version cannot be made: %w", problems.Err())
	}
	var v versions
	var part []int // the layers that do
	for _, t := range twins {
		cut, whole := t.Of, t.Layer
		if !s.IsCut() {
			cut, whole = whole, cut
		}
		before := len(v.partings)
		for p := range analysis.Partings(both, cut, whole) {
			v.partings = append(v.partings, parting{len(part), p})
		}
		if len(v.partings) > before {
			part = append(part, t.Of)
		}
	}
	if len(part) == 0 {
		return asIs, nil
	}
	v.section, v.twins, _ = s.Beside(every, part)
	slices.SortStableFunc(v.partings, func(a, b parting) int { return cmp.Compare(a.Time, b.Time) })
	v.section = v.section.WithTexts(v.texts())
	return v, nil
}

// name is what a loop is called in both its versions.
func (v *versions) name(p parting) string { return v.section.Layers[v.twins[p.twin].Of].Name }

// doesWord says what the versions of so many loops do from a moment on.
func doesWord(now analysis.Likeness, loops int) string {
	switch now {
	case analysis.One:
		return beat.Inflect(loops, "meets", "meet")
	case analysis.InRhythm:
		return beat.Inflect(loops, "meets in rhythm", "meet in rhythm")
	default:
		return beat.Inflect(loops, "parts", "part")
	}
}

// texts say over each moment whose versions part or meet there.
func (v *versions) texts() map[beat.Time]string {
	names := map[beat.Time]map[analysis.Likeness][]string{}
	for _, p := range v.partings {
		if names[p.Time] == nil {
			names[p.Time] = map[analysis.Likeness][]string{}
		}
		names[p.Time][p.Now] = append(names[p.Time][p.Now], v.name(p))
	}
	texts := map[beat.Time]string{}
	for at, who := range names {
		var parts []string
		for _, now := range slices.Sorted(maps.Keys(who)) {
			parts = append(parts, strings.Join(who[now], ", ")+" "+doesWord(now, len(who[now])))
		}
		texts[at] = strings.Join(parts, "; ")
	}
	return texts
}

// order lists all layers, each loop's second version after it.
func (v *versions) order() (list []int) {
	for i := range v.section.Layers {
		if slices.ContainsFunc(v.twins, func(t score.Twin) bool { return t.Layer == i }) {
			continue
		}
		list = append(list, i)
		for _, t := range v.twins {
			if t.Of == i {
				list = append(list, t.Layer)
			}
		}
	}
	return list
}

// detail says how far the whole loop is where its versions part, and what else
// a moment is; "" for nothing.
func (v *versions) detail(p parting) string {
	unit := int64(v.section.Layers[v.twins[p.twin].Of].Unit)
	switch {
	case p.Now == analysis.Apart && p.Length > 0:
		return fmt.Sprintf("the whole loop %v of %v pulses in", beat.Of(int64(p.Into), unit).Mixed(), beat.Of(int64(p.Length), unit).Mixed())
	case p.Time == v.section.Length:
		return "where the section ends"
	}
	return ""
}

// mostLines is how many partings a chart lists; all are marked in it.
const mostLines = 24

// lines lists the partings, in the bars of a section that has the same music.
func (v *versions) lines(s *score.Section) (all []string) {
	for i, p := range v.partings {
		if i == mostLines {
			return append(all, fmt.Sprintf("and %d moments more, marked above", len(v.partings)-mostLines))
		}
		text := fmt.Sprintf("%s %s at %s", v.name(p), doesWord(p.Now, 1), s.Where(p.Time).ASCII())
		if into := v.detail(p); into != "" {
			text += ", " + into
		}
		all = append(all, text)
	}
	return all
}

// allVersions are the versions of all sections of a piece, and the piece made of
// them.
func allVersions(p *score.Piece, every int) (*score.Piece, []versions, error) {
	both := *p
	both.Sections = nil
	var all []versions
	for _, s := range p.Sections {
		v, err := versionsOf(s, every)
		if err != nil {
			return nil, nil, err
		}
		both.Sections, all = append(both.Sections, v.section), append(all, v)
	}
	if every > 0 && !slices.ContainsFunc(all, func(v versions) bool { return len(v.twins) > 0 }) {
		bars := 0
		for _, s := range p.Sections {
			bars = max(bars, s.BarCount())
		}
		return nil, nil, fmt.Errorf("--cut %d cuts no loop short; another number of bars, less than %d, may", every, bars)
	}
	return &both, all, nil
}

// addCut adds the flag that asks for loops cut which the spec does not cut.
func addCut(cmd *cobra.Command, every *int) {
	cmd.Flags().IntVar(every, "cut", 0, "loops that nothing cuts beside what a cut every `N` bars would make of them")
}

func checkCut(cmd *cobra.Command, every int) error {
	if every < 0 || cmd.Flags().Changed("cut") && every == 0 {
		return usage("--cut %d: give a number of bars, 1 or more", every)
	}
	return nil
}

// asRows sets versions out as rows of a chart.
func (v *versions) asRows(opt *chart.Options) {
	opt.Order = append(opt.Order, v.order())
	note := ""
	if len(v.twins) > 0 {
		note = "each loop in two versions, cut and whole; over the bars, where they part and meet"
		opt.Hide |= rows.DropTogether // it would count a loop twice
	}
	opt.Notes = append(opt.Notes, note)
	for _, t := range v.twins {
		if slices.Contains(opt.Layers, v.section.Layers[t.Of].Name) {
			opt.Layers = append(opt.Layers, v.section.Layers[t.Layer].Name)
		}
	}
}
