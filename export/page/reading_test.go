package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
)

// In the round a Marimba that is felt from its last group begins bar 1 at 7 eighths.
// Bar 0 then has the beats 3, 4 and 5 of the five, at 1, 3 and 5 eighths, and the combs
// stay where they are.
func TestFeltBarlinesOverTheSameCombs(t *testing.T) {
	p := settled(t, 8, round())
	felt, ok := p.Sections[0].Felt(7)
	require.True(t, ok)
	v := gather(p, 0, []Felt{{Name: "felt", Downbeat: 7, Section: felt}})
	systems := v.systems(wide)
	drawn := v.drawSystem(v.frame(0, systems, wide))
	written, other := groupsOfReading(drawn, 0), groupsOfReading(drawn, 1)
	assert.Contains(t, written, `>1</text>`)
	assert.NotContains(t, written, `>0</text>`)
	assert.Contains(t, other, `>0</text>`)
	assert.Contains(t, other, "#2 late 3")
	assert.NotContains(t, written, "late 3")
	assert.Contains(t, drawn, "bar 1 beat 1 to", "what is written is said first")
	assert.Contains(t, drawn, "bar 0 beat 2½ to", "and what is felt")
	alone := gather(p, 0, nil)
	plain := alone.drawSystem(alone.frame(0, systems, wide))
	assert.NotContains(t, plain, "data-reading")
	for _, class := range []string{"hit ", "beam ", "stem"} {
		assert.Equal(t, pathsOf(plain, class), pathsOf(drawn, class), class)
	}

	d := v.data(1)
	require.Len(t, d.Readings, 2)
	assert.Equal(t, 0, d.Readings[1].First)
	assert.Equal(t, [][2]int64{{-3, 0}, {7, 0}, {17, 0}}, d.Readings[1].Bars[:3])
	assert.Equal(t, []int64{0, 2, 4, 6, 8}, d.Meters[0])
	assert.Equal(t, "bar 6 beat 2½, written bar 7 beat 1", v.meetings()[0].Where[1])
}

// groupsOfReading returns what is drawn for one reading.
func groupsOfReading(svg string, n int) string {
	var b strings.Builder
	for _, part := range strings.Split(svg, "<g data-reading=")[1:] {
		if strings.HasPrefix(part, `"`+string(rune('0'+n))) {
			b.WriteString(part[:strings.Index(part, "</g>")])
		}
	}
	return b.String()
}

func pathsOf(svg, class string) (all []string) {
	for line := range strings.Lines(svg) {
		if strings.HasPrefix(line, `<path class="`+class) {
			all = append(all, line)
		}
	}
	return all
}

// The Vibraphone of the round, 12 eighths, cut every 2 bars of 10: cycles begin at 0,
// 12 and again at 20. The second version stands under the first, in rows of its own
// index, and is marked as a second one in the data.
func TestVersions(t *testing.T) {
	p := settled(t, 8, round())
	both, twins, problems := p.Sections[0].Beside(2, []int{1})
	require.Empty(t, problems)
	vs := &Versions{Section: both, Twins: twins, Cut: true, Partings: []Parting{{At: 20, Who: "Vibraphone", Does: "parts"}}}
	v := gatherVersions(p, 0, vs, nil)
	assert.Equal(t, []int{1, 2}, v.drawn)
	assert.Equal(t, "b′", v.rows[2].letter)
	assert.Equal(t, v.rows[1].look.ink, v.rows[2].look.ink)
	assert.NotEqual(t, v.rows[1].look.dash, v.rows[2].look.dash)
	var starts []beat.Time
	for _, c := range v.rows[2].cycles[:4] {
		starts = append(starts, c.Start)
	}
	assert.Equal(t, []beat.Time{0, 12, 20, 32}, starts)
	shown := v.show()
	assert.Equal(t, []string{"bar 3 beat 1"}, shown.Partings[0].Where)

	var out strings.Builder
	require.NoError(t, Write(&out, p, Options{Sections: []Beside{{Versions: vs}}}))
	assert.Contains(t, out.String(), `"name":"Vibraphone, cut"`)
	assert.Contains(t, out.String(), `"version":"cut","second":true`)
	assert.Contains(t, out.String(), `id="versions"`)
	out.Reset()
	require.NoError(t, Write(&out, p, Options{Sections: []Beside{{}}}))
	assert.NotContains(t, out.String(), `id="versions"`)
	assert.NotContains(t, out.String(), `id="felt"`)
}
