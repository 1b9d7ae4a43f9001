package rows

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/spec/spectest"
)

func section(t *testing.T, text string) *Chart {
	t.Helper()
	p := spectest.Read(t, "title: T\ntempo: 60\n"+text)
	return Of(p.Sections[0], nil)
}

// rows writes the signs of one layer, bar by bar, ~ where a sound goes on over
// the barline.
func rows(ch *Chart, layer int) string {
	var b strings.Builder
	for bar := range ch.Bars() {
		row := bar.Rows[layer]
		for _, c := range row.Cells {
			if c.Sign == Sounding {
				b.WriteString(strconv.Itoa(c.Count))
			} else {
				b.WriteByte(".?Xxo"[c.Sign])
			}
		}
		if row.Held {
			b.WriteByte('~')
		}
		b.WriteByte('|')
	}
	return b.String()
}

// Every row here was written by hand from the meaning of the keys.
func TestRowsByHand(t *testing.T) {
	for _, c := range []struct{ name, spec, want string }{
		{"held groups over the barline", "groups: 3+2+2", "X23x2x2X~|23x2x2X2|"},
		{"short strikes leave silence", "groups: 3+2+2\n    strike: short", "X..x.x.X|..x.x.X.|"},
		{"every pulse", "groups: 3+2+2\n    strike: all", "XooxoxoX|ooxoxoXo|"},
		{"a blank group is silent", "groups: 3+rest 2+3", "X23..x23|X23..x23|"},
		{"a cycle may begin silent", "groups: rest 2+3+3", "..x23x23|..x23x23|"},
		{"a hold may cross a group's start", "box: x==x====\n    groups: 3+2+3", "X23x2123|X23x2123|"},
		{"a figure finer than the pulse", "groups: 4+4\n    figures: {4: x=x.xx..}", "Xo.oo.xo.oo.|Xo.oo.xo.oo.|"},
		{"an offset is silence", "groups: 4+4\n    offset: 2", "..X234x2~|34X234x2|"},
		{"begun before the section", "groups: 3+5\n    offset: -2", ".x2345X2~|3x2345X2|"},
		{"an entry inside a cycle", "groups: 2+1\n    enters: bar 2\n    offset: -4", "........|.xX2xX2x|"}, // cycle 1 is over before bar 2
		{"an entry", "groups: 3+5\n    enters: bar 2", "........|X23x2345|"},
		{"a leaving", "groups: 3+3\n    leaves: bar 2", "X23x23X2|........|"},
		{"a cut", "groups: 3+2+2\n    loop: cut every 1 bars", "X23x2x2X|X23x2x2X|"},
		{"growth", "groups: 2+2\n    process: {grow: {group: 1, by: 1, from: none}}", "X2x2X23x~|2X234x2X|"},
		{"shift lays a group over the edge", "groups: 3+3+2\n    process: {shift: {by: 1}}", "X23x23x2|.X23x23x|"}, // the last 2 begins a pulse before the edge; the pulse after it has no attack of its own
		{"rotation moves group 1", "groups: 3+3+2\n    process: {rotate: {by: 1}}", "X23x23x2|x23x2X23|"},
		{"its own pulse", "groups: 2+1\n    pulse: 1/4", "X2xX~|2xX2|"},
	} {
		st := section(t, "meter: 4/4\nlength: 2 bars\nlayers:\n  - name: A\n    "+c.spec+"\n")
		got := rows(st, 0)
		assert.Equal(t, c.want, got, c.name)
	}
}

// Shifted by one more each cycle, the group of 3 in rest 2+3+2 begins in cycle 4
// two pulses before its edge: the third pulse, in cycle 5, is still counted 3,
// though the group that cycle 5 lays over its own edge would be at its second.
func TestCountsGoOnOverTheEdgeOfACycle(t *testing.T) {
	st := section(t, "meter: 7/8\nlength: 5 bars\nlayers:\n  - name: A\n    groups: rest 2+3+2\n    process: {shift: {by: 1}}\n")
	assert.Equal(t, "..x23x2|...x23x|x2..x23|.x2..x2|3.x2..x|", strings.ReplaceAll(rows(st, 0), "~", ""))
}

// What is printed of a changed cycle adds up to it: of 3+2+2 over bars of eight,
// cycle 3 would begin in the silent bar 2, at its seventh pulse; its first group
// of 2 is not struck.
func TestPrintedGroupsAddUp(t *testing.T) {
	st := section(t, "meter: [4/4, 7/8]\nlength: 4 bars\nlayers:\n  - name: A\n    groups: 3+2+2\n    except: [{bar: 2, rest: yes}, {cycle: 3, groups: 2+2+3}]\n")
	var printed []string
	for b := range st.Bars() {
		for _, s := range b.Rows[0].Starts {
			printed = append(printed, Sizes(s.Groups, 8))
		}
	}
	require.GreaterOrEqual(t, len(printed), 3)
	assert.Equal(t, "rest 2+2+3", printed[2])
}

func lates(ch *Chart, layer int) string {
	var words []string
	for bar := range ch.Bars() {
		for _, s := range bar.Rows[layer].Starts {
			if s.Number == 0 {
				continue
			}
			word := map[LateKind]string{OnTime: "0", Late: "+", Early: "-", Home: "home"}[s.Lateness.Kind]
			if s.Lateness.Kind == Late || s.Lateness.Kind == Early {
				word += s.Lateness.Pulses.String()
			}
			words = append(words, word)
		}
	}
	return strings.Join(words, " ")
}

func TestLateness(t *testing.T) {
	for _, c := range []struct{ meter, layer, want string }{
		{"4/4", "groups: 3+2+2", "0 -1 -2 -3 -4 -5 -6 -7 0"}, // 7 against 8: one earlier each time; home it starts a new count
		{"4/4", "groups: 5+4", "0 +1 +2 +3 +4 +5 +6 +7"},     // 9 against 8
		{"4/4", "groups: 4+4+4", "0 +4 0 +4 0 +4"},           // half a bar counts as late
		{"4/4", "groups: 4+4\n    offset: 2", "+2 +2 +2 +2 +2 +2 +2 +2"},
		{"[4/4, 3/4]", "groups: 4+4", "0 0 +2 +2 +4 +4 +6"},                        // among unequal bars: how late in its own bar, of 8 6 8 6 …
		{"5/8", "groups: 2+1\n    pulse: 1/8 in 3:2", "0 +3 +6 +3/2 +9/2 0 +3 +6"}, // a cycle of 1/4 in bars of 5/8 = 7 1/2 pulses
	} {
		st := section(t, "meter: "+c.meter+"\nlength: 8 bars\nlayers:\n  - name: A\n    "+c.layer+"\n")
		got := lates(st, 0)
		n := len(strings.Fields(c.want))
		assert.Equal(t, c.want, strings.Join(strings.Fields(got)[:min(n, len(strings.Fields(got)))], " "), "%s %s", c.meter, c.layer)
	}
}

// A cut begins the count of steps anew, also in felt bars that begin before the section's
// bar 1. In eighths, bars of 8 after a pickup of 2: A's 5 begins at -2 and 3, and anew at
// 8, 13; 16, 21; 24, 29. Taken from 0 as written: 2 early, 5 early; then at the barline
// and 3 early. Taken an eighth after the pickup begins, bars run from -1 to 7 and all of
// it is 1 later.
func TestLatenessInFeltBarsBeforeBarOne(t *testing.T) {
	s := section(t, "meter: 4/4\npickup: 1/4\nlength: 4 bars\nlayers:\n  - {name: A, groups: 3+2, enters: pickup, loop: cut every 1 bars}\n").Section
	written := "-2 -5 0 -3 0 -3 0 -3"
	assert.Equal(t, written, lates(Of(s, nil), 0))
	eighth := s.Grid.Must(beat.Of(1, 8))
	for downbeat, want := range map[beat.Time]string{0: written, -1: "-1 -4 +1 -2 +1 -2 +1 -2"} {
		felt, ok := s.Felt(downbeat * eighth)
		require.True(t, ok)
		assert.Equal(t, want, lates(Of(felt, nil), 0), "downbeat %d", downbeat)
	}
}

// 3 against 2, by hand: together at 0, then b, a, b.
func TestTogether(t *testing.T) {
	st := section(t, "meter: 3/4\nlength: 2 bars\nlayers:\n  - {name: A, groups: 3+3}\n  - {name: B, groups: 2+2+2}\n")
	var got []string
	for bar := range st.Bars() {
		for _, h := range bar.Together {
			got = append(got, fmt.Sprint(h.Layers, ":", int64(h.Gap/st.Step())))
		}
	}
	one := []string{"[0 1]:2", "[]:0", "[1]:1", "[0]:1", "[1]:2", "[]:0"}
	assert.Equal(t, append(append([]string{}, one...), one...), got)

	sum := st.Summary(1, 2)
	assert.Equal(t, []int64{4, 6}, sum.Attacks)
	assert.Equal(t, 2, sum.Most)
}

func TestLanding(t *testing.T) {
	lands := func(layers string) []bool {
		l, ok := section(t, "meter: 4/4\nlength: 3 bars\nlayers:\n"+layers).Landing()
		require.True(t, ok)
		assert.Equal(t, 4, l.Number)
		var list []bool
		for _, r := range l.Rows {
			list = append(list, r.Sign.Struck())
		}
		return list
	}
	assert.Equal(t, []bool{true, false, false, true},
		lands("  - {name: A, groups: 4+4}\n  - {name: B, groups: 3+2}\n  - {name: C, groups: rest 1+3}\n  - {name: D, groups: 3+2, loop: cut every 1 bars}\n"))

	_, ok := section(t, "meter: 4/4\nlength: 17 pulses\nlayers:\n  - {name: A, groups: 4+4}\n").Landing()
	assert.False(t, ok, "the end lies inside a bar")
}

func TestStepHoldsEveryCell(t *testing.T) {
	st := section(t, "meter: 4/4\nlength: 3 bars\nlayers:\n  - {name: A, groups: 3+3, pulse: 1/8 in 3:2}\n  - {name: B, groups: 3+2, figures: {3: x=xx..}}\n")
	assert.Equal(t, beat.Of(1, 48), st.Section.Grid.Span(st.Step()), "thirds of eighths and their halves")
	for bar := range st.Bars() {
		for _, row := range bar.Rows {
			for _, c := range row.Cells {
				assert.Zero(t, (bar.Start+c.At)%st.Step())
			}
		}
	}
	assert.Equal(t, 3, st.BarCount())
	assert.True(t, st.Equal())
}
