package content

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/fingering"
)

// Places in halves of a space above the middle line, B4 in treble clef, the lowest first.
func TestPlacesOfHeads(t *testing.T) {
	items, _ := column(t, voice(1, sheet.StemFree, note(2, 0, "F5", "E4", "B4")))
	it := &items[0]
	assert.Equal(t, []int{4, -4, 0}, it.Pos)
	assert.Equal(t, []int{1, 2, 0}, it.Order)
	assert.Equal(t, [2]int{-4, 4}, [2]int{it.Low(), it.High()})
	assert.Equal(t, units(-200, 200, 0, -200, 200), units(it.Y(0), it.Y(1), it.Y(2), it.Top(), it.Bottom()))
	assert.Equal(t, units(-200, 200), units(it.Edge(pen.Upwards), it.Edge(pen.Downwards)))
}

// The head farther from the middle line says where a free stem goes; down from the middle
// line, and where both are as far (common practice). Other voices have theirs given.
func TestDirectionsOfStems(t *testing.T) {
	for _, c := range []struct {
		heads []string
		stem  sheet.Stem
		up    bool
	}{
		{[]string{"A4"}, sheet.StemFree, true}, {[]string{"B4"}, sheet.StemFree, false}, {[]string{"C5"}, sheet.StemFree, false},
		{[]string{"E4", "F5"}, sheet.StemFree, false}, {[]string{"E4", "E5"}, sheet.StemFree, true}, {[]string{"G4", "F5"}, sheet.StemFree, false},
		{[]string{"A4"}, sheet.StemDown, false}, {[]string{"C6"}, sheet.StemUp, true},
	} {
		items, _ := column(t, voice(1, c.stem, note(2, 0, c.heads...)))
		assert.Equal(t, c.up, items[0].Up, "%v", c)
		foot := 0
		if !c.up {
			foot = len(c.heads) - 1
		}
		assert.True(t, items[0].Lone)
		assert.Equal(t, foot, items[0].Foot(), "%v: the stem begins at the head away from its tip", c)
	}
}

// One beam, one direction: that of the farthest head of all under it, over a rest too. A
// second beam is on its own.
func TestBeamsTurnTogether(t *testing.T) {
	low, high := note(3, 0, "A4"), note(3, 0, "F5")
	first := beams(low, high)
	items, _ := column(t, voice(1, sheet.StemFree, first[0], &sheet.Rest{Length: quarter / 2, Value: sheet.Value{Power: 3}}, first[1]))
	assert.Equal(t, []bool{false, false}, []bool{items[0].Up, items[2].Up})
	items, _ = column(t, voice(1, sheet.StemFree, append(beams(note(3, 0, "A4"), note(3, 0, "G4")), beams(note(3, 0, "D5"), note(3, 0, "A4"))...)...))
	assert.Equal(t, []bool{true, true, false, false}, []bool{items[0].Up, items[1].Up, items[2].Up, items[3].Up})
	items, _ = column(t, voice(1, sheet.StemFree, append(beams(note(3, 0, "A4"), note(3, 0, "G4")), note(3, 0, "A4"), note(3, 0, "D5"))...))
	assert.Equal(t, []bool{true, true, true, false}, []bool{items[0].Up, items[1].Up, items[2].Up, items[3].Up}, "beside a beam")
}

// Whole and half notes are open, others filled; whole notes have no stem, eighths a flag,
// sixteenths two.
func TestValues(t *testing.T) {
	for power, want := range []struct {
		head  pen.Sign
		stem  bool
		flags int
	}{{pen.HeadWhole, false, 0}, {pen.HeadHalf, true, 0}, {pen.HeadBlack, true, 0}, {pen.HeadBlack, true, 1}, {pen.HeadBlack, true, 2}, {pen.HeadBlack, true, 3}} {
		items, _ := column(t, voice(1, sheet.StemFree, note(power, 0, "A4")))
		assert.Equal(t, want.head, items[0].Head[0], power)
		assert.Equal(t, want.stem, items[0].HasStem(), power)
		assert.Equal(t, want.flags, items[0].Flags(), power)
	}
}

// Slashes have neither pitch nor stem nor flag; a rhythm on slashes has stems and flags.
func TestSlashes(t *testing.T) {
	for as, stem := range map[score.Written]bool{score.AsSlashes: false, score.AsRhythm: true} {
		v := voice(1, sheet.StemFree, note(3, 0, "C6"), note(1, 0, "C6"))
		v.As = as
		items, _ := column(t, v)
		assert.Equal(t, []int{0}, items[0].Pos)
		assert.Equal(t, []pen.Sign{pen.HeadSlash, pen.HeadSlashOpen}, []pen.Sign{items[0].Head[0], items[1].Head[0]})
		assert.Equal(t, stem, items[0].HasStem())
		assert.Equal(t, stem, items[0].Flags() == 1)
	}
}

// A hi-hat's cross is on the space above the staff, a snare drum's head in the third
// space, of the drum set (common practice).
func TestDrums(t *testing.T) {
	set := find(t, "drum set")
	n := note(2, 0)
	for _, sound := range []string{"closed hi-hat", "snare"} {
		k, ok := set.Drum(sound)
		assert.True(t, ok, sound)
		n.Heads = append(n.Heads, sheet.Head{Drum: k})
	}
	_, rows := rowsOf(part(t, "drum set", bar(voice(1, sheet.StemUp, n))))
	it := rows[0].Contents[0].Items[0]
	assert.Equal(t, []int{5, 1}, it.Pos)
	assert.Equal(t, []pen.Sign{pen.HeadCross, pen.HeadBlack}, it.Head)
}

// Of two heads a step apart the one farther from the stem's foot is on its other side: 118
// less 8 to the right of a stem up, to the left of one down. In a cluster they alternate.
func TestSeconds(t *testing.T) {
	for _, c := range []struct {
		heads []string
		x     []pen.Unit
	}{
		{[]string{"A4", "B4"}, units(0, 110)}, {[]string{"C5", "D5"}, units(-110, 0)}, {[]string{"F4", "A4"}, units(0, 0)},
		{[]string{"F4", "G4", "A4"}, units(0, 110, 0)}, {[]string{"C5", "D5", "E5", "G5"}, units(0, -110, 0, 0)}, {[]string{"C5", "C5"}, units(-110, 0)},
	} {
		items, reach := column(t, voice(1, sheet.StemFree, note(2, 0, c.heads...)))
		var x []pen.Unit
		for i := range c.heads {
			x = append(x, items[0].HeadX(i))
		}
		assert.Equal(t, c.x, x, "%v", c.heads)
		assert.Equal(t, units(-min(0, c.x[0], c.x[1]), max(c.x[0], c.x[1])+118), units(reach.Left, reach.Right), "%v", c.heads)
	}
}

// By hand: a head is 118 wide; ledger lines, from the sixth half space on, reach 25 over
// it; a dot begins 22 after it and is 40 wide, the next 58 on; a flag up reaches 72.
func TestReachOfNotes(t *testing.T) {
	for _, c := range []struct {
		note        *sheet.Note
		left, right pen.Unit
	}{
		{note(2, 0, "A4"), 0, 118}, {note(2, 0, "D4"), 0, 118}, {note(2, 0, "C4"), 25, 143}, {note(2, 0, "G5"), 0, 118}, {note(2, 0, "A5"), 25, 143},
		{note(0, 0, "A4"), 0, 170}, {note(2, 1, "A4"), 0, 180}, {note(2, 2, "A4"), 0, 238}, {note(3, 0, "A4"), 0, 190}, {note(3, 0, "C5"), 0, 118},
		{note(2, 0, "A#4"), 128, 118},
	} {
		_, reach := column(t, voice(1, sheet.StemFree, c.note))
		assert.Equal(t, units(c.left, c.right), units(reach.Left, reach.Right), "%v", c.note.Heads)
	}
	ghost := note(2, 1, "A4")
	ghost.Heads[0].Ghost = true
	items, reach := column(t, voice(1, sheet.StemFree, ghost))
	assert.Equal(t, units(35, 215, 175), units(reach.Left, reach.Right, items[0].DotX), "35 to each side for parentheses")
	_, reach = column(t, voice(1, sheet.StemFree, &sheet.Rest{Length: quarter, Value: sheet.Value{Power: 2, Dots: 1}}))
	assert.Equal(t, units(0, 156), units(reach.Left, reach.Right), "a quarter rest is 106 wide, its dot takes 50")
	small := voice(1, sheet.StemUp, note(2, 0, "A4"))
	small.Small = true
	items, reach = column(t, small)
	assert.Equal(t, units(0, 77), units(reach.Left, reach.Right), "66 percent of 118")
	assert.Equal(t, pen.Unit(66), items[0].Size(100))
}

// A roll's strokes reach 55 to each side of the stem, which is at the right of the head
// when it goes up and at the left when it goes down. They ask for 50, their height of
// 2 × 62 + 36 + 34, and air of 34 above and below; a flag for 190 more.
func TestRolls(t *testing.T) {
	for name, want := range map[string][]pen.Unit{"A4": units(0, 173), "C5": units(55, 118)} {
		n := note(2, 0, name)
		n.Touch = score.Roll
		items, reach := column(t, voice(1, sheet.StemFree, n))
		assert.Equal(t, want, units(reach.Left, reach.Right), name)
		assert.Equal(t, units(312, 502), units(items[0].StrokeStem(0), items[0].StrokeStem(FlagHigh)))
	}
	items, _ := column(t, voice(1, sheet.StemFree, note(2, 0, "A4")))
	assert.Equal(t, pen.Unit(0), items[0].StrokeStem(FlagHigh))
}

// Two voices at one moment. Heads two steps apart or more stand under one another, a step
// apart the lower voice goes right by a head less 8; the same head of the same value
// serves both, of another value or dots it does not: by a head and 20, after the dots 22
// and 58 more.
func TestVoicesGiveWay(t *testing.T) {
	for _, c := range []struct {
		up, down *sheet.Note
		shift    pen.Unit
		shared   bool
	}{
		{note(2, 0, "D5"), note(2, 0, "B4"), 0, false}, {note(2, 0, "C5"), note(2, 0, "B4"), 110, false}, {note(2, 0, "C5"), note(2, 0, "C5"), 0, true},
		{note(1, 0, "C5"), note(2, 0, "C5"), 138, false}, {note(2, 1, "C5"), note(2, 0, "C5"), 218, false}, {note(2, 0, "B4"), note(2, 0, "C5"), 138, false},
		{note(2, 0, "C5"), note(2, 0, "A4", "B4"), 248, false}, {note(0, 0, "C5"), note(1, 0, "C5"), 190, false},
	} {
		items, _ := column(t, voice(1, sheet.StemUp, c.up), voice(2, sheet.StemDown, c.down))
		assert.Equal(t, units(0, c.shift), units(items[0].Shift, items[1].Shift), "%v under %v", c.down.Heads, c.up.Heads)
		assert.Equal(t, []bool{false, c.shared}, []bool{items[0].Shared, items[1].Shared}, "%v under %v", c.down.Heads, c.up.Heads)
		assert.False(t, items[0].Lone)
	}
	items, _ := column(t, voice(1, sheet.StemUp, note(2, 0, "C5")), voice(2, sheet.StemUp, note(2, 0, "B4")))
	assert.Equal(t, pen.Unit(118), items[1].Shift, "both stems up")
}

// Half the width of a syllable, with 20 of air, and 50 for a hyphen: in a size of 160
// "aaa" is 240 wide. The widest verse counts.
func TestRoomOfLyrics(t *testing.T) {
	n := note(2, 0, "A4")
	for _, c := range []struct {
		lyrics []score.Lyric
		want   pen.Unit
	}{
		{nil, 0}, {[]score.Lyric{{}}, 0}, {[]score.Lyric{{Text: "aaa"}}, 140}, {[]score.Lyric{{Text: "aaa", Syllabic: score.WordBegins}}, 190},
		{[]score.Lyric{{Text: "aaa", Syllabic: score.WordGoesOn}}, 190}, {[]score.Lyric{{Text: "a"}, {Text: "aaa"}, {Text: "aa"}}, 140},
	} {
		n.Lyrics = c.lyrics
		_, reach := column(t, voice(1, sheet.StemFree, n))
		assert.Equal(t, c.want, reach.Lyric, "%v", c.lyrics)
	}
}

// Grace notes stand in small heads, 77 wide, to the left: the last ends 34 before what the
// note has, with 22 before its head, and each keeps 22 from the next.
func TestGraceNotes(t *testing.T) {
	n := note(2, 0, "A#4")
	n.Graces = []*sheet.Note{note(3, 0, "A4"), note(3, 0, "C5")}
	items, reach := column(t, voice(1, sheet.StemFree, n))
	g := items[0].Graces
	// The sharp begins at -128: -128 - 34 - 99 = -261, and -261 - 22 - 99 = -382 before it.
	assert.Equal(t, units(-382, -261), units(g[0].X, g[1].X))
	assert.Equal(t, units(404, 118), units(reach.Left, reach.Right))
	assert.Equal(t, []bool{true, true}, []bool{g[0].Up, g[1].Up})
	n.Graces[0].Heads = append(n.Graces[0].Heads, head("F#4"))
	items, _ = column(t, voice(2, sheet.StemDown, n))
	assert.False(t, items[0].Graces[0].Up, "in a lower voice")
	// The sharp in two thirds of its size is 67 wide, 26 before its head.
	assert.Equal(t, pen.Unit(-93), items[0].Graces[0].SignX[1])
}

// Frets are set in the size of 165, digits 82 wide, in the middle of where a filled head
// would be, with 18 of air: 41 + 18 - 59 < 0 to the left and 59 + 59 to the right; two
// digits 165 wide reach 100 from the middle. Heads tied in have none.
func TestFrets(t *testing.T) {
	for _, c := range []struct {
		fret  int8
		ghost bool
		tied  bool
		text  string
		want  []pen.Unit
	}{{5, false, false, "5", units(0, 118)}, {12, false, false, "12", units(41, 159)}, {5, true, false, "(5)", units(49, 167)}, {5, false, true, "5", nil}} {
		n := note(2, 0, "A4")
		n.Heads[0].Stop, n.Heads[0].Ghost, n.TieIn = fingering.Stop{String: 2, Fret: c.fret}, c.ghost, c.tied
		p := part(t, "guitar", bar(voice(1, sheet.StemFree, n)))
		p.Staves = append(p.Staves, sheet.Staff{Lines: 6, Tuning: make([]score.Tone, 6)})
		d, rows := rowsOf(p)
		assert.Equal(t, c.text, rows[0].Contents[0].Items[0].FretText(0))
		var got []pen.Unit
		for _, r := range rows[0].Columns[0].Reach[1:] {
			assert.Equal(t, 1, r.Staff)
			got = append(got, r.Left, r.Right)
		}
		assert.Equal(t, c.want, got, fmt.Sprint(c))
		tab := &d.Staves[1]
		assert.Equal(t, units(150, 375, 375), units(tab.Between(), tab.Edge(), tab.Reach()))
	}
}

// A small voice is no music of the player's and has no frets, nor has a rest. Of grace
// notes they are in two thirds of the size: half of 54 and 18 about the middle of a head
// 77 wide at -133.
func TestFretsOfOtherNotes(t *testing.T) {
	reach := func(voices ...sheet.Voice) []Reach {
		p := part(t, "guitar", bar(voices...))
		p.Staves = append(p.Staves, sheet.Staff{Lines: 6, Tuning: make([]score.Tone, 6)})
		_, rows := rowsOf(p)
		return rows[0].Columns[0].Reach
	}
	fretted := func(n *sheet.Note) *sheet.Note { n.Heads[0].Stop = fingering.Stop{String: 2, Fret: 5}; return n }
	small := voice(1, sheet.StemFree, fretted(note(2, 0, "A4")))
	small.Small = true
	assert.Len(t, reach(small), 1)
	assert.Len(t, reach(voice(1, sheet.StemFree, &sheet.Rest{Length: quarter, Value: sheet.Value{Power: 2}}, fretted(note(2, 0, "A4")))), 1)
	graced := fretted(note(2, 0, "A4"))
	graced.Graces = []*sheet.Note{fretted(note(3, 0, "A4"))}
	all := reach(voice(1, sheet.StemFree, graced))
	assert.Equal(t, units(140, 118), units(all[1].Left, all[1].Right))
}
