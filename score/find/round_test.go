package find

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/heard"
	"tieover/score/process"
	"tieover/score/spec"
)

// drawn is a random layer: the text of its spec, and the loop and pitches that the spec
// amounts to.
type drawn struct {
	text string
	loop *Stretch
	own  Series // its chords are indexes of drawnPitches
}

var drawnPitches = []string{"C4", "D4", "F#4", "Bb3", "G4"}

var drawnPulses = []string{"1/8", "1/16", "1/4", "1/8 in 3:2", "1/16 in 5:4"}

// drawLayer makes a layer of one loop, perhaps cut or with one process.
func drawLayer(t *rapid.T) (drawn, string) {
	d := &Stretch{}
	d.Strike = rapid.SampledFrom([]Strike{Hold, Hold, Short}).Draw(t, "strike")
	n := rapid.IntRange(1, 7).Draw(t, "groups")
	for i := range n {
		item := Item{Size: rapid.Int64Range(1, 6).Draw(t, "size")}
		// No two silences side by side, and none after a short stroke: they could
		// not be told from one.
		item.Blank = d.Strike == Hold && i > 0 && i < n-1 && !d.Groups[i-1].Blank && rapid.IntRange(0, 5).Draw(t, "blank") == 0
		d.Groups = append(d.Groups, item)
	}
	meter := rapid.SampledFrom([]string{"4/4", "5/4", "7/8"}).Draw(t, "meter")
	var b strings.Builder
	fmt.Fprintf(&b, "  - name: Lock\n    instrument: piano\n    groups: %s\n", GroupsText(d.Groups))
	if d.Strike == Short {
		b.WriteString("    strike: short\n")
	}
	drawProcess(t, d, &b)
	if len(d.Process) == 0 && rapid.IntRange(0, 3).Draw(t, "offset") == 0 {
		d.At = rapid.Int64Range(1, 9).Draw(t, "lead")
		fmt.Fprintf(&b, "    offset: %d\n", d.At)
	}
	series := rapid.SliceOfN(rapid.IntRange(0, 4), 1, 9).Draw(t, "series")
	own := Series{Chords: series, Own: rapid.Bool().Draw(t, "own")}
	names := make([]string, len(series))
	for i, c := range series {
		names[i] = drawnPitches[c]
	}
	fmt.Fprintf(&b, "    pitches: %s\n", strings.Join(names, " "))
	if own.Own {
		b.WriteString("    restart: never\n")
	}
	return drawn{b.String(), d, own}, meter
}

func drawProcess(t *rapid.T, d *Stretch, b *strings.Builder) {
	n := len(d.Groups)
	if p, ok := period(append(slices.Clone(d.Groups), d.Groups...)); ok && p < n {
		return // the pitches alone would tell that the cycle is not a shorter one
	}
	after := rapid.IntRange(1, 3).Draw(t, "after")
	p := &process.Rule{After: after}
	switch kind := rapid.IntRange(0, 8).Draw(t, "process"); {
	case kind == 0 && !slices.Equal(d.Groups, append(slices.Clone(d.Groups[1:]), d.Groups[0])): // else nothing is heard of it
		p.Kind, p.By = process.Rotate, rapid.Int64Range(1, int64(n-1)).Filter(func(r int64) bool {
			return !slices.Equal(d.Groups, append(slices.Clone(d.Groups[r:]), d.Groups[:r]...))
		}).Draw(t, "by")
	case kind == 1:
		p.Kind, p.By = process.Shift, rapid.Int64Range(-2, 2).Filter(func(n int64) bool { return n != 0 }).Draw(t, "by")
	case kind == 2 && !palindrome(d.Groups): // else nothing is heard of it
		p.Kind, p.After = process.Retrograde, after+1
	case kind == 3 && n > 1:
		p.Kind, p.Size = process.Append, rapid.IntRange(1, 5).Draw(t, "added")
	case kind == 4:
		p.Kind, p.Group, p.By = process.Grow, rapid.IntRange(1, n).Draw(t, "group"), 1
	default:
		return
	}
	d.Process = []process.Rule{*p}
	if d.Strike == Hold && n > 2 && (p.Kind == process.Rotate || p.Kind == process.Grow) && rapid.IntRange(0, 2).Draw(t, "second process") == 0 {
		d.Process = append(d.Process, process.Rule{Kind: process.Retrograde, After: after + 1})
	}
	texts := make([]string, len(d.Process))
	for i, p := range d.Process {
		texts[i] = drawnText(p)
	}
	fmt.Fprintf(b, "    process: [%s]\n", strings.Join(texts, ", "))
}

// drawnText writes one process that was drawn.
func drawnText(p process.Rule) string {
	switch p.Kind {
	case process.Rotate:
		return fmt.Sprintf("{rotate: {by: %d, after: %d}}", p.By, p.After)
	case process.Shift:
		return fmt.Sprintf("{shift: {by: %d, after: %d}}", p.By, p.After)
	case process.Append:
		return fmt.Sprintf("{append: {size: %d, after: %d}}", p.Size, p.After)
	case process.Grow:
		return fmt.Sprintf("{grow: {group: %d, by: %d, from: none, after: %d}}", p.Group, p.By, p.After)
	}
	return fmt.Sprintf("{retrograde: {on: every %s}}", map[int]string{2: "2nd", 3: "3rd", 4: "4th"}[p.After])
}

func palindrome(items []Item) bool {
	turned := slices.Clone(items)
	slices.Reverse(turned)
	return slices.Equal(items, turned)
}

// WriteSpec writes the spec of a layer in eighths with score/found, which imports this
// package (written_test.go).
var WriteSpec func(l *List, ranked []*Description, instrument, meter string) (string, error)

// soundsLike writes the spec of what was found, in eighths, and sees to it that it
// sounds like the list: onsets, lengths, and with an instrument tones.
func soundsLike(t require.TestingT, l *List, ranked []*Description, instrument string) (text string) {
	text, err := WriteSpec(l, ranked, instrument, "")
	require.NoError(t, err)
	attacks, _ := attacksOf(t, text)
	require.Len(t, attacks, len(l.Hits), text)
	for i, h := range l.Hits {
		require.Equal(t, beat.Of(h.At, 8), attacks[i].Onset, text)
		require.Equal(t, beat.Of(h.Length, 8), attacks[i].Length, text)
		if instrument != "" {
			require.Equal(t, chordText(l.Chords[h.Chord]), attacks[i].Names(), text)
		}
	}
	return text
}

// attacksOf lists what a spec sounds, as if it had been read from a score, and
// counts its complete cycles.
func attacksOf(t require.TestingT, text string) (all []heard.Attack, complete int64) {
	p, problems := spec.Read([]spec.File{{Name: "spec.yaml", Text: []byte(text)}})
	require.Empty(t, problems, text)
	s := p.Sections[0]
	for c := range s.Cycles(0) {
		if c.Cut == score.NotCut {
			complete++
		}
	}
	for layer := range s.Layers { // those of one player follow each other
		all = append(all, layerAttacks(p, layer)...)
	}
	return all, complete
}

func layerAttacks(p *score.Piece, layer int) (all []heard.Attack) {
	for at, a := range p.Sections[0].Attacks(layer) {
		h := heard.Attack{Onset: p.Grid.Span(at), Length: p.Grid.Span(a.Length), Voice: "1"}
		for _, tone := range a.Tones {
			h.Tones = append(h.Tones, toneOf(tone))
		}
		all = append(all, h)
	}
	return all
}

func toneOf(t score.Tone) heard.Tone {
	return heard.Tone{Step: t.Step, Alter: t.Alter, Octave: t.Octave}
}

// A random section is found again: the spec that find writes sounds exactly
// the same, and its description is no longer than that of the spec that the
// music came from.
func TestFindRoundTrip(t *testing.T) {
	heardEnough := 0
	rapid.Check(t, func(t *rapid.T) {
		layer, meter := drawLayer(t)
		cycles := rapid.Int64Range(2, 12).Draw(t, "cycles")
		pulses := layer.loop.At + cycles*layer.loop.Length() + rapid.Int64Range(0, 6).Draw(t, "more")
		pulse := rapid.SampledFrom(drawnPulses).Draw(t, "pulse")
		text := fmt.Sprintf("title: Lock\nmeter: %s\npulse: %s\nlength: %d pulses\nlayers:\n%s", meter, pulse, pulses, layer.text)
		attacks, complete := attacksOf(t, text)
		if len(attacks) < 2 {
			t.Skip()
		}
		l, err := FromAttacks(attacks, beat.Span{}, beat.Of(1<<20, 1))
		require.NoError(t, err)
		ranked := Search(l, Options{})
		best := ranked[0]

		written, err := WriteSpec(l, ranked, "piano", meter)
		require.NoError(t, err)
		again, _ := attacksOf(t, written)
		require.Equal(t, attacks, again, "%s\n%s\n%v", text, written, best)

		was := layer.loop
		was.Cycles, was.Rest, _ = was.Strokes(l.End, func(Stroke) bool { return true })
		was.cutAt(l.Hits[len(l.Hits)-1]) // it must be said, too
		bits := was.rhythmBits(len(l.Items())) + l.seriesBits(layer.ownChords(l))
		if enough := complete >= 3 && len(attacks) >= 2*len(layer.own.Chords) && was.isHeard(); !enough {
			return
		}
		heardEnough++
		literal := ranked[len(ranked)-1]
		if best.Bits() <= bits {
			return
		}
		// A process that saves nothing against the bare list need not be found.
		assert.LessOrEqual(t, literal.Bits(), bits+leastBits, "%s\nfound %v: %.1f bits, the spec takes %.1f", text, best, best.Bits(), bits)
	})
	assert.NotZero(t, heardEnough)
}

// ownChords rewrites the drawn series, which counts its own chords, to the
// list's. Chords that never sounded cost what any chord costs.
func (d drawn) ownChords(l *List) *Series {
	s := &Series{Own: d.own.Own}
	for _, c := range d.own.Chords {
		name := drawnPitches[c]
		at := -1
		for k, chord := range l.Chords {
			if chordText(chord) == name {
				at = k
			}
		}
		if at < 0 {
			at = len(l.Chords)
			l.Chords = append(l.Chords, []heard.Tone{{Name: name}})
		}
		s.Chords = append(s.Chords, at)
	}
	return s
}
