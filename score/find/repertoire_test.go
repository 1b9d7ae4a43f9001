package find

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/heard"
	"tieover/score/process"
)

// played writes a list out attack by attack: durations and pitches looped
// side by side, n attacks in all. It is the definition of isorhythm, without
// any of the code under test.
func played(t *testing.T, talea []int64, color []string, n int) *List {
	t.Helper()
	l := &List{Pulse: beat.Plain(beat.Of(1, 8))}
	known := map[string]int{}
	now := int64(0)
	for i := range n {
		length := talea[i%len(talea)]
		name := color[i%len(color)]
		if _, seen := known[name]; !seen {
			known[name] = len(l.Chords)
			l.Chords = append(l.Chords, []heard.Tone{{Name: name, MIDI: uint8(len(l.Chords) + 40)}})
		}
		l.Hits = append(l.Hits, Hit{At: now, Length: length, Chord: known[name]})
		now += length
	}
	l.End = now
	require.NoError(t, l.check())
	return l
}

// numbered makes n different names.
func numbered(n int) []string {
	names := make([]string, n)
	for i := range names {
		names[i] = fmt.Sprintf("p%d", i+1)
	}
	return names
}

// Messiaen, Quatuor pour la fin du Temps (1941), first movement. Piano: 17
// durations against 29 chords, which realign after 493 events (K. Kothman,
// teaching notes 2012); the values are from memory and satisfy his totals of
// 17 values and 13 quarters. Cello: 15 durations of 33 eighths against 5
// pitches (same source; values from memory).
func TestFindMessiaen(t *testing.T) {
	piano := []int64{4, 4, 4, 2, 3, 2, 2, 2, 2, 3, 3, 3, 1, 2, 3, 4, 8}
	cello := []int64{4, 3, 4, 4, 1, 1, 3, 1, 1, 1, 1, 3, 1, 1, 4}
	require.EqualValues(t, 52, sum(piano))
	require.EqualValues(t, 33, sum(cello))
	for _, c := range []struct {
		name      string
		talea     []int64
		color     []string
		attacks   int
		wantTalea string
		want      string // what is said of the pitches
	}{
		{"piano", piano, numbered(29), 493, "4+4+4+2+3+2+2+2+2+3+3+3+1+2+3+4+8 (52 pulses), 29 times",
			"29 pitches of their own against 17 attacks a cycle: together again after 493 attacks (17 rounds of the pitches, 29 cycles)"},
		// three rounds of the pitches fit one rhythm exactly, so they can as well be dealt afresh
		{"cello", cello, []string{"C", "E", "D", "F#", "Bb"}, 7*15 + 4, "4+3+4+4+1+1+3+1+1+1+1+3+1+1+4 (33 pulses), 7 times and 15 pulses of the next",
			"C E D F# Bb, dealt afresh each cycle"},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := played(t, c.talea, c.color, c.attacks)
			best := Search(l, Options{})[0]
			assert.Equal(t, c.wantTalea, best.String())
			assert.Contains(t, best.SeriesWords(l), c.want)
			assert.True(t, best.Strong())
		})
	}
}

func sum(values []int64) (n int64) {
	for _, v := range values {
		n += v
	}
	return n
}

// Colors against taleae: the counts of Machaut's motet 1 (30 notes, Machaut
// project, University of Exeter) and Kyrie I of his Mass (28 and 4), of "2 C =
// 3 T" and "3 C = 4 T" types, all from memory, and plain arithmetic.
func TestFindIsorhythm(t *testing.T) {
	for _, c := range []struct{ color, talea, events, colors, taleae int }{
		{30, 10, 30, 1, 3}, {28, 4, 28, 1, 7}, {5, 15, 15, 3, 1}, {6, 4, 12, 2, 3}, {16, 12, 48, 3, 4}, {7, 5, 35, 5, 7}, {12, 8, 24, 2, 3}, {21, 7, 21, 1, 3},
	} {
		t.Run(fmt.Sprintf("%d:%d", c.color, c.talea), func(t *testing.T) {
			talea := make([]int64, c.talea)
			for i := range talea {
				talea[i] = int64(1 + (i*i+i/2)%4)
			}
			talea[c.talea-1] = 7 // so that no shorter period hides in it
			l := played(t, talea, numbered(c.color), 2*c.events)
			best := Search(l, Options{})[0]
			require.NotNil(t, best.Series)
			assert.Len(t, best.Loop().Groups, c.talea)
			assert.Len(t, best.Series.Chords, c.color)
			if c.color > c.talea {
				assert.True(t, best.Series.Own)
				assert.Contains(t, best.SeriesWords(l),
					fmt.Sprintf("together again after %d attacks (%s of the pitches, %s)", c.events, beat.Counted(c.colors, "round"), beat.Counted(c.taleae, "cycle")))
			}
		})
	}
}

// Clapping Music's figure (Reich 1972; public matrix) xxx.xx.x.xx., moved one
// place to the left after each n bars; the twelve rotations are typed in from
// that matrix, not computed.
func TestFindPhase(t *testing.T) {
	bars := []string{"xxx.xx.x.xx.", "xx.xx.x.xx.x", "x.xx.x.xx.xx", ".xx.x.xx.xxx", "xx.x.xx.xxx.", "x.x.xx.xxx.x",
		".x.xx.xxx.xx", "x.xx.xxx.xx.", ".xx.xxx.xx.x", "xx.xxx.xx.x.", "x.xxx.xx.x.x", ".xxx.xx.x.xx", "xxx.xx.x.xx."}
	for _, times := range []int{1, 4, 8, 12} {
		t.Run(fmt.Sprint(times, " times"), func(t *testing.T) {
			var row strings.Builder
			for _, bar := range bars {
				row.WriteString(strings.Repeat(bar, times))
			}
			l := clapped(t, row.String())
			best := Search(l, Options{})[0]
			require.Len(t, best.Loop().Process, 1, best.String())
			assert.Equal(t, process.Shift, best.Loop().Process[0].Kind)
			assert.EqualValues(t, -1, best.Loop().Process[0].By, "ahead of the partner")
			assert.EqualValues(t, times, best.Loop().Process[0].After)
			assert.EqualValues(t, 12, best.Loop().Length())
			assert.True(t, best.Strong())
		})
	}
}

// clapped reads a box in which every attack lasts one pulse.
func clapped(t *testing.T, box string) *List {
	t.Helper()
	l := &List{Pulse: beat.Plain(beat.Of(1, 8)), Chords: [][]heard.Tone{{{}}}}
	for i, sign := range box {
		if sign == 'x' {
			l.Hits = append(l.Hits, Hit{At: int64(i), Length: 1})
			l.End = int64(i) + 1
		}
	}
	return l
}

// Loops cut to a length: rows of truncated groupings by plain arithmetic, each
// stated three times over.
func TestFindCutLoops(t *testing.T) {
	for _, c := range []struct {
		loop  string
		every int64
		once  string
	}{
		{"3+2+2", 32, "3 2 2 3 2 2 3 2 2 3 2 2 3 1"},
		{"2+2+3", 32, "2 2 3 2 2 3 2 2 3 2 2 3 2 2"},
		{"3+2+3+2", 32, "3 2 3 2 3 2 3 2 3 2 3 2 2"},
		{"3", 16, "3 3 3 3 3 1"},
		{"3", 32, "3 3 3 3 3 3 3 3 3 3 2"},
		{"3+2", 16, "3 2 3 2 3 2 1"},
	} {
		t.Run(fmt.Sprintf("%s in %d", c.loop, c.every), func(t *testing.T) {
			found := Search(durations(t, strings.TrimSpace(strings.Repeat(c.once+" ", 3))), Options{})
			var all []string
			for _, d := range found {
				all = append(all, d.String())
				if d.Loop().CutEvery == c.every && GroupsText(d.Loop().Groups) == strings.Replace(c.loop, "3+2+3+2", "3+2", 1) {
					return
				}
			}
			t.Errorf("not among %s", strings.Join(all, "\n"))
		})
	}
}
