package score_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/sample"
	"tieover/score/spec"
)

func read(t require.TestingT, texts ...string) *score.Piece {
	var files []spec.File
	for i, text := range texts {
		files = append(files, spec.File{Name: fmt.Sprintf("%d.yaml", i+1), Text: []byte(text)})
	}
	piece, problems := spec.Read(files)
	require.Empty(t, problems, strings.Join(texts, "\n"))
	return piece
}

// Random sections are worked out a second time from the definitions: the
// realignments, each cycle and each attack are the same.
func TestAgainstTheNaiveScore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		texts := []string{sample.YAML(t)}
		if rapid.IntRange(0, 5).Draw(t, "several") == 0 {
			texts = sample.YAMLs(t)
		}
		for i, s := range read(t, texts...).Sections {
			compare(t, s, texts[i])
		}
	})
}

func compare(t require.TestingT, s *score.Section, text string) {
	met, start, aside := encounters(s)
	got := []encounter{}
	atStart := false
	for r := range s.Realignments() {
		if r.Time == 0 {
			atStart = true
			continue
		}
		k := len(got)
		e := encounter{at: r.Time, cut: r.Cut, parts: r.Divides, marked: r.Label != ""}
		if k < len(met) && (r.Time == s.Length && s.End == score.Stop || planned(s, r.Time)) {
			e.marked = met[k].marked // the label does not tell
		}
		got = append(got, e)
	}
	require.Equal(t, start, atStart, "realignment 0\n%s", text)
	require.Equal(t, append([]encounter{}, met...), got, "realignments\n%s", text)
	require.Equal(t, aside, slices.Collect(s.AlsoTogether()), "also together\n%s", text)
	for i, l := range s.Layers {
		if l.Line == nil {
			compareCycles(t, s, i, met, text)
		}
		compareAttacks(t, s, i, text)
	}
}

// planned reports whether the plan has a mark of its own there.
func planned(s *score.Section, at beat.Time) bool {
	return slices.ContainsFunc(s.Plan, func(e score.PlanEntry) bool { return e.Time == at && e.Mark != "" })
}

func compareCycles(t require.TestingT, s *score.Section, layer int, met []encounter, text string) {
	l := s.Layers[layer]
	want := passes(s, layer, met, min(l.Leaves, s.Length))
	k := 0
	for c := range s.Cycles(layer) {
		if c.Landing {
			continue
		}
		require.Less(t, k, len(want), "%s: more cycles than there are\n%s", l.Name, text)
		w := want[k]
		w.ends = min(w.ends, l.Leaves, s.Length)
		got := pass{c.Index, c.Number, c.Start, c.Length, c.Start + c.Head, c.End(), w.sizes}
		require.Equal(t, w, got, "%s cycle %d\n%s", l.Name, k+1, text)
		require.Equal(t, w.ends < w.start+w.length, c.Cut != score.NotCut, "%s cycle %d: cut\n%s", l.Name, k+1, text)
		k++
	}
	require.Len(t, want, k, "%s: cycles\n%s", l.Name, text)
}

// ledBySpec writes the grace notes and tones of an attack as the spec did, without
// what a flam or a drag repeats.
func ledBySpec(a *score.Attack) string {
	graces := a.Graces
	switch {
	case a.Touch.Has(score.Flam):
		graces = graces[:len(graces)-1]
	case a.Touch.Has(score.Drag):
		graces = graces[:len(graces)-2]
	}
	text := ""
	for _, c := range graces {
		text += c.String() + "/"
	}
	return text + a.Tones.String()
}

func compareAttacks(t require.TestingT, s *score.Section, layer int, text string) {
	l := s.Layers[layer]
	want, k := naive(s, layer), 0
	for at, a := range s.Attacks(layer) {
		if at >= s.Length {
			continue // the landing
		}
		got := played{at, a.Length, ledBySpec(a), a.Accent, a.Touch}
		if len(l.Series) == 0 && l.Line == nil {
			got.tones = ""
		}
		if k < len(want) && want[k].tones == "" {
			got.tones = ""
		}
		require.Less(t, k, len(want), "%s: more attacks than there are, %+v\n%s", l.Name, got, text)
		require.Equal(t, want[k], got, "%s attack %d\n%s", l.Name, k+1, text)
		k++
	}
	require.Len(t, want, k, "%s: attacks\n%s", l.Name, text)
}

// The laws of a layer, whatever it plays: cycles follow one another and their
// groups tile them; attacks come in order, inside the time in which the layer
// sounds, and stop before the next; what is counted before anything is made is
// neither too little nor too much.
func TestLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := sample.YAML(t)
		s := read(t, text).Sections[0]
		for i, l := range s.Layers {
			cyclesTile(t, s, i, text)
			attacks, before := 0, l.Enters
			for at, a := range s.Attacks(i) {
				require.GreaterOrEqual(t, at, before, "%s overlaps\n%s", l.Name, text)
				require.Positive(t, a.Length, text)
				before = at + a.Length
				if at < s.Length {
					attacks++
					require.LessOrEqual(t, before, min(l.Leaves, s.Length), "%s sounds too long\n%s", l.Name, text)
				}
			}
			deviates := false
			for _, e := range l.Except {
				deviates = deviates || e.Bar > 0
			}
			if deviates {
				continue
			}
			least, most := s.AttackBounds(i)
			require.LessOrEqual(t, least, attacks, "%s\n%s", l.Name, text)
			require.GreaterOrEqual(t, most, attacks, "%s\n%s", l.Name, text)
			if l.Line == nil {
				require.Equal(t, attacks, s.CountAttacks(i, 1<<30), "%s\n%s", l.Name, text)
			}
		}
	})
}

func cyclesTile(t require.TestingT, s *score.Section, layer int, text string) {
	var end beat.Time
	first := true
	for c := range s.Cycles(layer) {
		if !c.Landing && !first {
			require.Equal(t, end, c.Start, "cycle %d of layer %d\n%s", c.Index, layer, text)
		}
		first, end = false, c.End()
		var filled beat.Time
		for _, g := range c.Groups {
			require.Equal(t, filled, g.At, "groups of cycle %d of layer %d\n%s", c.Index, layer, text)
			filled += g.Length
		}
		require.Equal(t, c.Length, filled, "cycle %d of layer %d\n%s", c.Index, layer, text)
		for _, a := range c.Attacks {
			g := c.Groups[a.Group]
			require.True(t, g.At <= a.At && a.At < g.At+g.Length, "an attack outside its group\n%s", text)
		}
	}
}
