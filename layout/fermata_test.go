package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
)

// A fermata stands on the sign of each voice: a note that began before, a piece
// of one, a rest. It breaks the rest of a part that is alone, though the bars are
// alike.
func TestFermataStandsOnEverySign(t *testing.T) {
	const text = `title: Weir
meter: 4/4
length: 6 bars
layers:
  - {name: A, groups: 3+3+2}
  - {name: B, groups: 8+4+4}
  - {name: C, groups: 4+4, enters: bar 6}
plan:
  - {at: bar 2 beat 3, fermata: yes}
  - {at: bar 3, fermata: yes}
  - {at: bar 4, fermata: yes}
`
	s := laid(t, Options{}, text)
	bars := func(p *sheet.Part) (all []string) {
		for b := range p.Bars() {
			all = append(all, sheet.VoiceText(&b.Measure.Voices[0], true))
		}
		return all
	}
	plain := func(all []string) []string { return all[1:4] }
	assert.Equal(t, []string{"q.:x1 q.:x1@ q:x1", "q.:x1@ q.:x1 q:x1", "q.:x1@ q.:x1 q:x1"}, plain(bars(&s.Parts[0])))
	assert.Equal(t, []string{"h:x1 h:x1@", "w:x1@", "h:x1@ h:x1"}, plain(bars(&s.Parts[1])))
	assert.Equal(t, []string{"rbar@", "rbar@", "rbar@"}, plain(bars(&s.Parts[2])))
	part := single(t, Options{Cues: CueNone}, 2, text)
	for b := range part.Parts[0].Bars() {
		assert.Zero(t, b.Rest, b.Number)
	}
}
