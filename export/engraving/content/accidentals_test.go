package content

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
)

// Signs stand 26 before their head, and 26 before one that they would meet: the highest is
// nearest, then the lowest, then those between. Signs less than 8 apart meet. A sharp is
// 102 wide and reaches 142 up and down, so two clear each other from the seventh on: 300
// - 284 = 16. A flat is 80 wide and reaches 175 up and 76 down; two a sixth apart are 250
// - 251 apart and meet.
func TestColumnsOfAccidentals(t *testing.T) {
	for _, c := range []struct {
		heads []string
		want  []pen.Unit
	}{
		{[]string{"A#4"}, units(-128)},
		{[]string{"Ab4"}, units(-106)},
		{[]string{"An4"}, units(-94)},
		{[]string{"A##4"}, units(-126)},
		{[]string{"Abb4"}, units(-174)},
		{[]string{"A(b)4"}, units(-166)}, // parentheses take 60
		{[]string{"F#4", "E#5"}, units(-128, -128)},
		{[]string{"F#4", "D#5"}, units(-256, -128)},
		{[]string{"F#4", "A#4", "C#5"}, units(-256, -384, -128)},
		{[]string{"Fb4", "Db5"}, units(-212, -106)},
		{[]string{"Fb4", "Eb5"}, units(-106, -106)},
		{[]string{"F4", "A#4", "C5"}, units(0, -128, 0)},
		{[]string{"D#4"}, units(-128)},
		{[]string{"A#5"}, units(-163)},          // so does one above
		{[]string{"C#4"}, units(-163)},          // a ledger line begins 35 before the head
		{[]string{"C4", "E#4"}, units(0, -163)}, // and of another head
		{[]string{"C#5", "D5"}, units(-238, 0)}, // a head on the other side of a stem down, at -110
		{[]string{"C5", "D#5"}, units(0, -238)}, // its neighbor there is in the way
	} {
		items, reach := column(t, voice(1, sheet.StemFree, note(2, 0, c.heads...)))
		assert.Equal(t, c.want, items[0].SignX, "%v", c.heads)
		left := pen.Unit(0)
		for _, x := range c.want {
			left = max(left, -x)
		}
		assert.Equal(t, left, reach.Left, "%v", c.heads)
	}
}

// How wide a sign is, and how far it reaches above and below its head, is how it is drawn;
// parentheses take 60 and reach 72 up and down.
func TestBoxesOfAccidentals(t *testing.T) {
	for name, want := range map[string][]pen.Unit{"Ab4": {80, 175, 76}, "Abb4": {148, 175, 76}, "An4": {68, 140, 140}, "A#4": {102, 142, 142}, "A##4": {100, 50, 50}, "A(b)4": {140, 175, 76}} {
		items, _ := column(t, voice(1, sheet.StemFree, note(2, 0, name)))
		a := items[0].AccidentalOf(0)
		assert.Equal(t, want, units(a.Width, a.Up, a.Down), name)
	}
}

// A note and the rest of another voice at one moment do not move each other.
func TestNoteBesideRest(t *testing.T) {
	rest := &sheet.Rest{Length: quarter, Value: sheet.Value{Power: 2}}
	items, reach := column(t, voice(1, sheet.StemUp, note(2, 0, "A#4")), voice(2, sheet.StemDown, rest))
	assert.Equal(t, pen.Unit(0), items[0].Shift)
	assert.Equal(t, units(128, 118), units(reach.Left, reach.Right))
}

// No two signs meet, nor a sign and a head, whatever the chord: all chords of four of
// eight neighboring heads with sharps or flats.
func TestAccidentalsNeverMeet(t *testing.T) {
	names := []string{"C4", "E4", "F4", "G4", "A4", "B4", "C5", "E5"}
	type box struct{ x0, x1, y0, y1 pen.Unit }
	for set := range 1 << len(names) {
		for _, sign := range []string{"#", "b"} {
			var heads []string
			for i, n := range names {
				if set>>i&1 == 1 {
					heads = append(heads, n[:1]+sign+n[1:])
				}
			}
			if len(heads) != 4 {
				continue
			}
			items, _ := column(t, voice(1, sheet.StemFree, note(2, 0, heads...)))
			it := &items[0]
			var all []box
			for i := range heads {
				a := it.AccidentalOf(i)
				all = append(all, box{it.HeadX(i), it.HeadX(i) + 118, it.Y(i) - 50, it.Y(i) + 50}, box{it.SignX[i], it.SignX[i] + a.Width, it.Y(i) - a.Up, it.Y(i) + a.Down})
			}
			for i, a := range all {
				for j, b := range all[:i] {
					heads := i%2 == 0 && j%2 == 0
					assert.False(t, !heads && a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1, "%v: %v meets %v", heads, a, b)
				}
			}
		}
	}
}

// Signs of two voices share the columns, small ones in their size: 66 percent of 102 is 67.
// A head that serves both voices has its sign once, and a roll's strokes are kept clear of.
func TestAccidentalsOfVoices(t *testing.T) {
	items, _ := column(t, voice(1, sheet.StemUp, note(2, 0, "D#5")), voice(2, sheet.StemDown, note(2, 0, "B#4")))
	assert.Equal(t, units(-128, -256), units(items[0].SignX[0], items[1].SignX[0]))
	items, _ = column(t, voice(1, sheet.StemUp, note(2, 0, "B#4")), voice(2, sheet.StemDown, note(2, 0, "B#4")))
	assert.Equal(t, units(-128, 0), units(items[0].SignX[0], items[1].SignX[0]))
	small := voice(1, sheet.StemUp, note(2, 0, "A#4"))
	small.Small = true
	items, _ = column(t, small)
	assert.Equal(t, units(-93), items[0].SignX)
	rolled := note(2, 0, "A5", "F#5")
	rolled.Touch = sheet.Stroked
	items, _ = column(t, voice(1, sheet.StemFree, rolled))
	assert.Equal(t, pen.Unit(-176), items[0].SignX[1]) // strokes from 7 - 55, less 26 and 102
}
