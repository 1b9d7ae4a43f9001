package spacing

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
	"tieover/layout"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/sample"
	"tieover/score/spec/spectest"
)

// setter returns the setter of a spec's score and its rows.
func setter(t require.TestingT, text string, width pen.Unit) (*Setter, []content.Row) {
	laid, problems := layout.Lay(spectest.Read(t, text), layout.Options{})
	require.NoError(t, problems.Err(), text)
	s := &Setter{Reader: content.NewReader(laid), Width: width, First: true}
	return s, slices.Collect(s.Rows)
}

// flute is a spec of one part in bars of 4/4, of pulses of a quarter.
func flute(bars int, groups, more string) string {
	return fmt.Sprintf("title: T\nmeter: 4/4\npulse: 1/4\nlength: %d bars\nlayers: [{name: Flute, instrument: flute, groups: %s, pitches: A4}]\n%s", bars, groups, more)
}

// Columns are as far apart as their signs ask, stretched: of a quarter 290, a half 380, in
// 1,000 thousandths, and the first 110 after the signs of its bar, 140 at the line's start.
func TestIdealGaps(t *testing.T) {
	s, rows := setter(t, flute(2, "1+1+2", ""), 9000)
	l := s.Line(rows, nil, 9000)
	for _, stretch := range []int{1000, 2000, 1500} {
		l.Spread(stretch)
		grown := func(u int) pen.Unit { return pen.Unit(u * stretch / 1000) }
		for b, xs := range l.Xs {
			lead := []pen.Unit{140, 110}[b]
			assert.Equal(t, []pen.Unit{l.Music(b) + lead, xs[0] + grown(290), xs[1] + grown(290)}, xs, "bar %d at %d", b+1, stretch)
			assert.Equal(t, xs[2]+grown(380), l.Edges[b+1], "bar %d at %d: the barline is where the next column would be", b+1, stretch)
		}
	}
}

// A note that a tie leads in to from the line before asks for 70 more.
func TestRoomForTies(t *testing.T) {
	s, rows := setter(t, flute(3, "3", ""), 9000)
	for from, want := range []pen.Unit{140, 210, 210} { // attacks after 0, 3, 6 and 9 quarters; bars begin after 4 and 8
		l := s.Line(rows[from:], nil, 9000)
		assert.Equal(t, want, l.lead(0), "bar %d", from+1)
	}
	l := s.Line(rows, nil, 9000)
	assert.Equal(t, []pen.Unit{110, 110}, []pen.Unit{l.lead(1), l.lead(2)})
}

// One moment is one place on all staves, and later ones stand to its right: of quarters
// against dotted quarters in a bar of 3/4 only the first moment is common.
func TestLayersAlign(t *testing.T) {
	s, rows := setter(t, "title: T\nmeter: 3/4\nlength: 1 bars\nlayers: [{name: A, instrument: flute, groups: 2+2+2, pitches: A4}, {name: B, instrument: oboe, groups: 3+3, pitches: A4}]\n", 9000)
	l := s.Line(rows, nil, 9000)
	l.Spread(1300)
	l.PlaceSpots()
	at := map[beat.Time]pen.Unit{}
	staves := map[beat.Time]int{}
	for i := range l.Spots {
		spot := &l.Spots[i]
		when := spot.Event.At()
		if x, known := at[when]; known {
			assert.Equal(t, x, spot.X, "at %d", when)
		}
		at[when] = spot.X
		staves[when] |= 1 << spot.Staff
		assert.Equal(t, l.XAt(0, when), spot.X)
		assert.Equal(t, spot.X+59, spot.Center())
	}
	eighth := s.Sheet.Grid.Must(beat.Of(1, 8))
	assert.Equal(t, map[beat.Time]int{0: 3, 2 * eighth: 1, 3 * eighth: 2, 4 * eighth: 1}, staves)
	assert.True(t, at[0] < at[2*eighth] && at[2*eighth] < at[3*eighth] && at[3*eighth] < at[4*eighth])
	assert.Equal(t, []VoiceKey{{0, 1}, {1, 1}}, []VoiceKey{l.Voices[0].Key, l.Voices[1].Key})
	assert.Equal(t, []int{0, 1}, []int{l.Voices[0].Staff, l.Voices[1].Staff})
}

// meet reports what stands too near on one staff of a line.
func meet(l *Line, report func(format string, args ...any)) {
	for staff := range l.s.Staves {
		for b := range l.Rows {
			free := l.Music(b) + 30
			for k := range l.Rows[b].Columns {
				for _, r := range l.Rows[b].Columns[k].Reach {
					if r.Staff == staff {
						if l.Xs[b][k]-r.Left < free+22 {
							report("bar %d, column %d on staff %d: %d is not 22 after %d", b+1, k, staff, l.Xs[b][k]-r.Left, free)
						}
						free = max(free, l.Xs[b][k]+r.Right)
					}
				}
			}
			if l.Edges[b+1]-l.EndRoom(b) < free+50 {
				report("bar %d: the barline at %d is not 50 after %d", b+1, l.Edges[b+1], free)
			}
		}
	}
}

// However little room there is, nothing on a staff meets, and a line that is stretched is
// as wide as it is said to be.
func TestNothingMeets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		laid, problems := layout.Lay(spectest.Read(t, sample.YAML(t)), layout.Options{})
		if problems.Err() != nil {
			t.Skip("cannot be written in common notation")
		}
		s := &Setter{Reader: content.NewReader(laid), Width: 9000}
		var rows []content.Row
		for r := range s.Rows {
			if rows = append(rows, r); len(rows) == 6 {
				break
			}
		}
		for _, stretch := range []int{0, 400, 1000} {
			l := s.Line(rows, nil, 9000)
			width := l.Spread(stretch)
			assert.Equal(t, l.Right()+l.Tail.Width, width)
			meet(l, t.Errorf)
		}
		for _, line := range s.Divided(rows) {
			l := s.Line(line, &rows[0], 9000)
			l.Justify()
			meet(l, t.Errorf)
			if l.Spread(0) <= 9000 && len(l.Xs[0]) > 0 {
				l.Justify()
				assert.Equal(t, pen.Unit(9000), l.Right()+l.Tail.Width)
			}
		}
	})
}

// A sharp keeps 34 from the note before it, where others keep 22; a dashed stroke asks for
// 50 more; words for as much as they reach, whatever the notes ask.
func TestFrontier(t *testing.T) {
	take := func(c content.Column, signs, lyrics pen.Unit) (x pen.Unit, f frontier) {
		f = frontier{[]pen.Unit{signs}, []pen.Unit{lyrics}}
		return f.take(&c, 100), f
	}
	reach := func(left, right, lyric pen.Unit) []content.Reach {
		return []content.Reach{{Left: left, Right: right, Lyric: lyric}}
	}
	for _, c := range []struct {
		column        content.Column
		signs, lyrics pen.Unit
		x, right      pen.Unit
	}{
		{content.Column{Reach: reach(0, 118, 0)}, 50, 0, 100, 218},
		{content.Column{Reach: reach(0, 118, 0)}, 90, 0, 112, 230},
		{content.Column{Reach: reach(25, 143, 0)}, 90, 0, 137, 280},
		{content.Column{Reach: reach(128, 118, 0)}, 90, 0, 252, 370},
		{content.Column{Reach: reach(0, 118, 0), Stroke: true}, 90, 0, 162, 280},
		{content.Column{Reach: reach(0, 118, 140)}, 0, 200, 281, 399},
		{content.Column{Reach: reach(0, 118, 0)}, 400, 900, 422, 540},
	} {
		x, f := take(c.column, c.signs, c.lyrics)
		assert.Equal(t, []pen.Unit{c.x, c.right}, []pen.Unit{x, f.signs[0]}, "%v", c)
		if l := c.column.Reach[0].Lyric; l > 0 {
			assert.Equal(t, x+59+l, f.lyrics[0])
		}
	}
}

// A line is stretched to its width exactly; the last one only if it is seven tenths full,
// else by a quarter: 290 become 362.
func TestJustify(t *testing.T) {
	s, rows := setter(t, flute(6, "1+1+2", ""), 9000)
	whole := s.Line(rows, nil, 9000).Spread(1000)
	for _, c := range []struct {
		width pen.Unit
		last  bool
		full  bool
	}{{whole * 3 / 4, true, true}, {whole + 777, true, true}, {whole * 10 / 8, true, true}, {whole * 10 / 6, true, false}, {whole * 10 / 6, false, true}} {
		next := &rows[0]
		if c.last {
			next = nil
		}
		l := s.Line(rows, next, c.width)
		l.Justify()
		if c.full {
			assert.Equal(t, c.width, l.Right()+l.Tail.Width, "%v", c)
		} else {
			assert.Less(t, l.Right(), c.width*8/10, "%v", c)
			assert.Equal(t, pen.Unit(362), l.Xs[1][1]-l.Xs[1][0])
		}
		assert.True(t, slices.IsSorted(l.Edges))
		for b := range l.Xs {
			assert.True(t, l.Edges[b] < l.Xs[b][0] && slices.IsSorted(l.Xs[b]) && l.Xs[b][2] < l.Edges[b+1])
		}
	}
}

// A bar without columns is 700 wide, stretched as others are, but at least 260.
func TestBarsOfRest(t *testing.T) {
	s, rows := setter(t, "title: T\nmeter: 4/4\nlength: 3 bars\nlayers: [{name: A, instrument: flute, groups: 8, pitches: A4, enters: bar 3}, {name: B, instrument: flute, groups: 8, pitches: A4, enters: bar 2}]\n", 9000)
	l := s.Line(rows, nil, 9000)
	for stretch, want := range map[int]pen.Unit{1000: 700, 2000: 1400, 100: 260} {
		l.Spread(stretch)
		assert.Equal(t, l.Music(0)+want, l.Edges[1], "at %d", stretch)
	}
}

// Between columns a moment lies in proportion; after the last the barline is the next.
func TestPlacesBetweenColumns(t *testing.T) {
	s, rows := setter(t, strings.Replace(flute(1, "4+4+8", ""), "pulse: 1/4", "pulse: 1/16", 1), 9000)
	l := s.Line(rows, nil, 9000)
	l.Spread(1000)
	quarter := s.Sheet.Grid.Must(beat.Of(1, 4))
	xs := l.Xs[0]
	for at, want := range map[beat.Time]pen.Unit{0: xs[0], quarter: xs[1], quarter / 2: xs[0] + 145, 3 * quarter / 2: xs[1] + 145, 3 * quarter: (xs[2] + l.Edges[1]) / 2, 4 * quarter: l.Edges[1]} {
		assert.Equal(t, want, l.XAt(0, at), "at %d", at)
	}
	assert.Equal(t, (l.Music(0)+l.Edges[1]-l.EndRoom(0))/2, l.Middle(0))
}

// A stroke before a moment stands 45 left of what stands there, or halfway to what is on
// its left where that is nearer than 120.
func TestPlacesOfStrokes(t *testing.T) {
	s, rows := setter(t, flute(1, "1+1+2", ""), 9000)
	l := s.Line(rows, nil, 9000)
	l.Spread(1000)
	xs := l.Xs[0]
	assert.Equal(t, xs[1]-45, l.Between(0, 0, xs[1])) // 290 - 118 = 172 are free
	xs[1] = xs[0] + 198
	assert.Equal(t, xs[0]+118+40, l.Between(0, 0, xs[1])) // of 80
	assert.Equal(t, xs[0]-55, l.Between(0, 0, xs[0]))     // of 110, from 30 after the signs on
}

// The room of the names is that of the widest, with 60 and 130; names are those in full on
// the first line, then the short ones, where there are several parts.
func TestNames(t *testing.T) {
	both := "title: T\nmeter: 4/4\nlength: 1 bars\nlayers: [{name: Abc, short: Ab, instrument: flute, groups: 8, pitches: A4}, {name: B, instrument: oboe, groups: 8, pitches: A4}]\n"
	s, rows := setter(t, both, 9000)
	width := func(name string) pen.Unit { return pen.NameFace.Width(name) }
	assert.Equal(t, width("Abc")+190, s.Line(rows, nil, 9000).Left)
	assert.Equal(t, "Abc", s.NameOf(0))
	s.First = false
	assert.Equal(t, "Ab", s.NameOf(0))
	assert.Equal(t, "B", s.NameOf(1))
	assert.Equal(t, width("Ab")+190, s.Line(rows, nil, 9000).Left)
	s.Unnamed = true
	assert.Empty(t, s.NameOf(0))
	assert.Equal(t, pen.Unit(130), s.Line(rows, nil, 9000).Left)
	s, rows = setter(t, flute(1, "1", ""), 9000)
	assert.Equal(t, "Flute", s.NameOf(0))
	s.First = false
	assert.Empty(t, s.NameOf(0), "a part alone says who it is once")
	assert.Equal(t, pen.Unit(130), s.Line(rows, nil, 9000).Left)
}

// Lines have about as many bars each, as few as fit, and no bar is lost; what fits one
// line at six tenths of its gaps stays on it.
func TestDivided(t *testing.T) {
	s, rows := setter(t, flute(12, "1+1+2", ""), 9000)
	bar := pen.Unit(110 + 2*290 + 380)
	for _, c := range []struct {
		width pen.Unit
		lines []int
	}{{20000, []int{12}}, {10000, []int{12}}, {7 * bar, []int{6, 6}}, {5 * bar, []int{4, 4, 4}}, {100, []int{1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}}} {
		s.Width = c.width
		var sizes []int
		next := 1
		for _, line := range s.Divided(rows) {
			sizes = append(sizes, len(line))
			for i := range line {
				assert.Equal(t, next, line[i].Bars[0].Number)
				next++
			}
		}
		assert.Equal(t, c.lines, sizes, "width %d", c.width)
		assert.True(t, s.First)
	}
	assert.Len(t, s.Divided(rows[:1]), 1)
	s.Width = 2 * bar
	assert.Len(t, s.Divided(rows[:3]), 3, "of two lines the first, of two bars, would be too full")
}

// The keys that follow one another: sharps are 105 apart and flats and naturals 85; with
// 50 before and 20 after them.
func TestKeySigns(t *testing.T) {
	key := func(fifths int) score.Key { return score.Key{Fifths: fifths} }
	for _, c := range []struct {
		old, now int
		want     KeySigns
		width    pen.Unit
	}{{0, 2, KeySigns{2, false}, 280}, {2, 0, KeySigns{2, true}, 240}, {-3, 0, KeySigns{-3, true}, 325}, {3, -1, KeySigns{-1, false}, 155}, {0, 0, KeySigns{0, true}, 0}} {
		got := change(key(c.old), key(c.now))
		assert.Equal(t, c.want, got)
		assert.Equal(t, c.width, got.Width(), "%v", c)
	}
	assert.Equal(t, 3, KeySigns{Fifths: -3}.Count())
}

// By hand. The clef stands 60 from the line's start and takes 260 (one of percussion 160)
// and 20; two sharps 280; the signature, 156 wide, 65 before it and 45 after it. A new key
// and meter in bar 3 are announced at the end of a line before it, there with 25 after.
func TestPrefixes(t *testing.T) {
	s, rows := setter(t, flute(4, "1+1+2", "key: D major\nplan: [{at: bar 3, key: C major, meter: 2/4}]\n"), 9000)
	l := s.Line(rows, nil, 9000)
	assert.Equal(t, Prefix{Width: 340 + 280 + 65 + 156 + 45, Clef: 60, Key: 390, Time: 340 + 280 + 65}, l.Prefix[0])
	assert.Equal(t, Prefix{Clef: -1, Key: -1, Time: -1}, l.Prefix[1])
	assert.Equal(t, Prefix{Width: 50 + 2*85 + 20 + 65 + 156 + 45, Clef: -1, Key: 50, Time: 240 + 65}, l.Prefix[2])
	assert.Equal(t, Prefix{Clef: -1, Key: -1, Time: -1}, l.Tail)
	l = s.Line(rows[:2], &rows[2], 9000)
	assert.Equal(t, Prefix{Width: 240 + 65 + 156 + 25, Clef: -1, Key: 50, Time: 240 + 65}, l.Tail)
	l = s.Line(rows[2:], nil, 9000)
	assert.Equal(t, Prefix{Width: 340 + 65 + 156 + 45, Clef: 60, Key: -1, Time: 405}, l.Prefix[0], "naturals stand before the line's end, not after")
	assert.Equal(t, 2, l.Bars())
	assert.Equal(t, s.Sheet.Grid.Must(beat.Of(3, 1)), l.End())

	s, rows = setter(t, "title: T\nmeter: 4/4\nlength: 1 bars\nkey: D major\nlayers: [{name: A, instrument: woodblock, groups: 8}]\n", 9000)
	assert.Equal(t, Prefix{Width: 240 + 65 + 156 + 45, Clef: 60, Key: -1, Time: 305}, s.Line(rows, nil, 9000).Prefix[0])
}

// A clef that changes is small, 260 at 72 percent, with 45 before and 20 after it, before
// the barline, at a line's end too; a final barline takes 90, a double one 60, the end of a
// repeat 170. The sign at a repeat's start takes 110.
func TestRoomAtBarlines(t *testing.T) {
	for sign, want := range map[sheet.Barline]pen.Unit{sheet.Plain: 0, sheet.Double: 60, sheet.Final: 90, sheet.RepeatEnd: 170, sheet.Dashed: 0} {
		assert.Equal(t, want, barlineRoom(sign))
	}
	s, rows := setter(t, "title: T\nmeter: 4/4\nlength: 3 bars\nend: repeat\nlayers: [{name: A, instrument: cello, groups: 8, pitches: C3}]\nplan: [{at: bar 2, clef: tenor}]\n", 9000)
	l := s.Line(rows, nil, 9000)
	l.Spread(1000)
	assert.Equal(t, []pen.Unit{252, 0, 0}, []pen.Unit{l.TurnRoom(0), l.TurnRoom(1), l.TurnRoom(2)})
	assert.Equal(t, []pen.Unit{252, 0, 170}, []pen.Unit{l.EndRoom(0), l.EndRoom(1), l.EndRoom(2)})
	assert.Equal(t, l.Edges[1]-252+45, l.TurnX(0))
	assert.Equal(t, pen.Unit(252), s.Line(rows[:1], &rows[1], 9000).TurnRoom(0))
	assert.Equal(t, l.Edges[0]+l.Prefix[0].Width+110, l.Music(0))
	assert.Equal(t, byte('F'), l.ClefIn(0, 0).Sign)
	assert.Equal(t, byte('C'), l.ClefIn(1, 0).Sign)

	rows[2].Bars[0].NewClef = true
	assert.Equal(t, pen.Unit(0), l.TurnRoom(1), "the clef is that which holds")
	rows[2].Bars[0].Left = sheet.RepeatStart
	assert.Equal(t, pen.Unit(252), l.TurnRoom(1), "but where a repeat comes back to it")
}
