package musicxml

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Bars of 4/4 in eighths. Under a sign for repeated bars others write rests, or nothing, or
// all notes; the bar that ends the sign has its own.
func TestReadRepeatedBars(t *testing.T) {
	style := func(sign string) string {
		return "<attributes><measure-style><measure-repeat " + sign + "</measure-repeat></measure-style></attributes>"
	}
	one, two, stop := style(`type="start">1`), style(`type="start">2`), style(`type="stop">`)
	for name, c := range map[string]struct {
		bars, want, remarks []string
	}{
		"one bar, three times": {[]string{eighths + noteOf("C4", 3) + noteOf("E4", 5), one + restOf(8), restOf(8), stop + noteOf("G4", 8)},
			[]string{"0:3/8 C4", "3/8:5/8 E4", "1:3/8 C4", "11/8:5/8 E4", "2:3/8 C4", "19/8:5/8 E4", "3:1 G4"}, nil},
		"two bars, and nothing in them": {[]string{eighths + noteOf("C4", 8), noteOf("E4", 8), two, ""},
			[]string{"0:1 C4", "1:1 E4", "2:1 C4", "3:1 E4"}, nil},
		"written out":          {[]string{eighths + noteOf("C4", 8), one + noteOf("D4", 8)}, []string{"0:1 C4", "1:1 D4"}, nil},
		"a rest after its end": {[]string{eighths + noteOf("C4", 8), one + restOf(8), stop + restOf(8)}, []string{"0:1 C4", "1:1 C4"}, nil},
		"nothing to be repeated": {[]string{eighths + noteOf("C4", 8), two + restOf(8)}, []string{"0:1 C4"},
			[]string{"bar 2 repeats a bar that is not there or not as long"}},
		"no number": {[]string{eighths + noteOf("C4", 8), style(`type="start">`) + restOf(8)}, []string{"0:1 C4"},
			[]string{"bar 2 has a sign that does not say how many bars it repeats"}},
	} {
		score := readText(t, partwise("Towpath", c.bars...))
		assert.Equal(t, c.want, heardAs(score.Parts[0]), name)
		var remarks []string
		for _, r := range score.Remarks {
			remarks = append(remarks, r.Text)
		}
		assert.Equal(t, c.remarks, remarks, name)
	}
}
