package report

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"tieover/export/chart/terminal"
	"tieover/score/analysis"
	"tieover/score/analysis/grouping"
	"tieover/score/analysis/timeline"
	"tieover/score/beat"
)

// groupings says what each pattern is by itself.
func (t *text) groupings() {
	if !slices.ContainsFunc(t.f.Layers, func(l analysis.Layer) bool { return len(l.Groups) > 0 }) {
		return
	}
	t.heading("The groupings")
	seen := map[string]string{}
	for i, l := range t.f.Layers {
		for k, g := range l.Groups {
			name := t.s.Layers[i].Name
			if len(l.Groups) > 1 {
				name += fmt.Sprintf(", pattern %d", k+1)
			}
			key := g.String() + " " + t.s.Layers[i].Pulse.String()
			if earlier, known := seen[key]; known {
				t.item(fmt.Sprintf("%s%s: %s; see %s.", name, t.begins(i), terminal.Clip(g.String(), 40), earlier))
				continue
			}
			seen[key] = name
			t.grouping(name+t.begins(i), t.s.Layers[i].Pulse, g)
		}
		if l.Rhythm != nil {
			name := possessive(t.s.Layers[i].Name) + " attacks"
			if len(l.Groups) > 1 {
				name += " in the first cycle"
			}
			t.rhythm(name, *l.Rhythm, seen)
		}
	}
}

// begins says of a layer whose groups a process changes that these are its first.
func (t *text) begins(layer int) string {
	if len(t.s.Layers[layer].Process) > 0 {
		return ", as it begins"
	}
	return ""
}

func (t *text) grouping(name string, pulse beat.Pulse, g analysis.Grouping) {
	sentence := fmt.Sprintf("%s: %s", name, terminal.Clip(g.String(), 60))
	if t.o.Indices {
		sentence += fmt.Sprintf(" makes %s in %s", t.counted(int64(g.Rhythm.Units), pulse), count(len(g.Sizes), "group"))
	}
	t.shape(sentence, g)
}

// rhythm says what the attacks of a cycle are by themselves, where they are
// not the groups.
func (t *text) rhythm(name string, g analysis.Grouping, seen map[string]string) {
	key := fmt.Sprint(g.Rhythm, g.Unit)
	if earlier, known := seen[key]; known {
		t.item(fmt.Sprintf("%s: see %s.", name, earlier))
		return
	}
	seen[key] = name
	sentence := fmt.Sprintf("%s: %s", name, terminal.Clip(beat.Sum(g.Sizes), 60))
	if g.Rhythm.Units <= 32 {
		sentence += ", " + g.Rhythm.Box()
	}
	t.shape(fmt.Sprintf("%s, counted in %s", sentence, t.unitName(t.s.Grid.Span(g.Unit))), g)
}

// shape ends what is said of a pattern with what it is, in plain words; a
// specialist gets the indices too.
func (t *text) shape(sentence string, g analysis.Grouping) {
	if len(g.Rhythm.Onsets) == 1 {
		t.item(sentence + ".")
		return
	}
	sentence = fmt.Sprintf("%s; %s, %s.", sentence, evenness(g), mirrored(g))
	if names := matchesInWords(g.Names); names != "" {
		sentence += " " + names
	}
	t.item(sentence)
	if t.o.Indices {
		t.indices(g)
	}
}

// evenness says how evenly the attacks lie in the cycle.
func evenness(g analysis.Grouping) string {
	switch {
	case g.DistinctGaps == 1:
		return "even"
	case g.Euclidean:
		return "as even as whole pulses allow"
	case g.Euclid == nil:
		return "not even"
	}
	return fmt.Sprintf("not even (%s would be)", terminal.Clip(beat.Sum(g.Euclid), 40))
}

// mirrored says whether the pattern is symmetrical.
func mirrored(g analysis.Grouping) string {
	gaps := g.Rhythm.Gaps()
	back := slices.Clone(gaps)
	slices.Reverse(back)
	switch {
	case slices.Equal(gaps, back):
		return "the same backwards"
	case g.Mirror:
		return "symmetrical"
	}
	return "not symmetrical"
}

func (t *text) indices(g analysis.Grouping) {
	sounding := len(g.Rhythm.Onsets)
	for _, sentence := range []string{t.necklace(g), t.ways(g), euclidean(g)} {
		if sentence != "" {
			t.para(4, 6, sentence)
		}
	}
	t.para(4, 6, fmt.Sprintf("Off-beatness %d of %d; rhythmic oddity %s; Keith %d; LHL %s; WNBD %s.",
		g.OffBeatness, sounding, oddityInWords(g), g.Keith, lhl(g.LHL), wnbd(g.WNBD)))
	if g.Pairwise != nil {
		t.para(4, 6, fmt.Sprintf("%s, %s between attacks; deep: %s.", count(g.DistinctGaps, "different duration"),
			count(g.Pairwise.Distinct, "different distance"), yesOrNo(g.Pairwise.Deep)))
	}
	t.para(4, 6, fmt.Sprintf("Evenness (Milne) %.6f; balance %.6f; DFT of order %d %.6f; nPVI %.6f.",
		g.Evenness, g.Balance, sounding, g.DFT, g.NPVI))
}

func (t *text) necklace(g analysis.Grouping) string {
	sentence := fmt.Sprintf("Necklace %s", terminal.Clip(beat.Sum(g.Necklace), 50))
	if g.Rotation == 1 && g.Rhythm.Onsets[0] == 0 {
		sentence += ", as it stands"
	} else {
		sentence += fmt.Sprintf(", begun at its sounding group %d", g.Rotation)
	}
	if c := g.AsMany; c != nil && readable(c.Necklaces) {
		among := "one of " + beat.Thousands(c.Necklaces)
		if c.Necklaces.IsInt64() && c.Necklaces.Int64() == 1 {
			among = "the only one"
		}
		sentence += fmt.Sprintf("; %s with %s in %s", among, count(len(g.Rhythm.Onsets), "attack"), count(g.Rhythm.Units, "pulse"))
		if fewer(*c) {
			sentence += fmt.Sprintf(" (%s when mirror images count as one)", beat.Thousands(c.Bracelets))
		}
	}
	if g.Mirror {
		return sentence + ". Backwards it is the same necklace."
	}
	return sentence + fmt.Sprintf(". Backwards it is another necklace; the bracelet of both is %s.", terminal.Clip(beat.Sum(g.Bracelet), 50))
}

// readable reports whether a number is short enough to mean anything to a reader.
func readable(n *big.Int) bool { return len(n.String()) <= mostDigits }

// fewer reports whether it makes a difference that mirror images count as one.
func fewer(c grouping.Counts) bool { return c.Necklaces.Cmp(c.Bracelets) != 0 }

func (t *text) ways(g analysis.Grouping) string {
	c := g.TwosAndThrees
	if c == nil || !readable(c.Orders) {
		return ""
	}
	turned := ""
	if fewer(*c) {
		turned = fmt.Sprintf(", %s when mirror images count as one", beat.Thousands(c.Bracelets))
	}
	sentence := fmt.Sprintf("One of %s orders of 2s and 3s that make %d (%s up to rotation%s)", beat.Thousands(c.Orders), g.Rhythm.Units,
		beat.Thousands(c.Necklaces), turned)
	if c.Orders.IsInt64() && c.Orders.Int64() == 1 {
		sentence = fmt.Sprintf("The only order of 2s and 3s that makes %d", g.Rhythm.Units)
	}
	if g.Aksak != "" {
		return fmt.Sprintf("%s; aksak class: %s.", sentence, g.Aksak)
	}
	return sentence + "."
}

func euclidean(g analysis.Grouping) string {
	k, n := len(g.Rhythm.Onsets), g.Rhythm.Units
	class := map[grouping.Class]string{
		grouping.EuclideanString: "a Euclidean string",
		grouping.ReverseString:   "the reverse of a Euclidean string",
		grouping.Neither:         "",
	}[g.Class]
	sentence := fmt.Sprintf("Not Euclidean: E(%d,%d) is %s.", k, n, terminal.Clip(beat.Sum(g.Euclid), 40))
	switch {
	case g.Euclidean && g.Euclid == nil:
		return "Euclidean, that is as even as can be."
	case g.Euclid == nil:
		return "Not Euclidean."
	case g.Euclidean && g.Rhythm.Onsets[0] == 0 && slices.Equal(g.Euclid, g.Rhythm.Gaps()):
		sentence = fmt.Sprintf("Euclidean: it is E(%d,%d).", k, n)
	case g.Euclidean:
		sentence = fmt.Sprintf("Euclidean: a rotation of E(%d,%d), %s.", k, n, terminal.Clip(beat.Sum(g.Euclid), 40))
	}
	if class != "" {
		sentence += " It is " + class + "."
	}
	return sentence
}

// matchesInWords lists the patterns of published names.
func matchesInWords(names []timeline.Match) string {
	var parts []string
	for _, m := range names {
		sentence := m.Pattern.Name
		switch {
		case m.Turn > 0:
			sentence += fmt.Sprintf(", started %s later", count(m.Turn, "pulse"))
		case m.Turn < 0:
			sentence += fmt.Sprintf(", started %s earlier", count(-m.Turn, "pulse"))
		}
		if m.Times != m.Over {
			sentence += fmt.Sprintf(", in values of %s", ratio(m.Times, m.Over))
		}
		parts = append(parts, fmt.Sprintf("%s (%s)", sentence, m.Pattern.Source.Short))
	}
	if len(parts) == 0 {
		return ""
	}
	return "Known as: " + strings.Join(parts, "; ") + "."
}

// ratio says how the pattern's length compares with ours.
func ratio(times, over int) string {
	switch {
	case over == 1 && times == 2:
		return "twice the length"
	case over == 1:
		return fmt.Sprintf("%d times the length", times)
	case times == 1 && over == 2:
		return "half the length"
	}
	return fmt.Sprintf("%d/%d of the length", times, over)
}

func oddityInWords(g analysis.Grouping) string {
	if g.Rhythm.Units%2 == 1 {
		return "yes (an odd number of pulses)"
	}
	return yesOrNo(g.Oddity)
}

func yesOrNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

func lhl(n *int) string {
	if n == nil {
		return "not defined here"
	}
	return fmt.Sprint(*n)
}

func wnbd(r *big.Rat) string {
	if r == nil {
		return "not defined here"
	}
	return r.RatString()
}
