package score_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score"
)

// dynamicsOf writes the dynamics of a section's layer as "eighth sign".
func dynamicsOf(s *score.Section, layer int) string {
	var all []string
	for _, d := range s.Dynamics(s.Layers[layer]) {
		all = append(all, fmt.Sprint(eighthOf(s, d.Time), " ", d.Text))
	}
	return strings.Join(all, ", ")
}

// Three bars of 4/4 with an attack every quarter. A reader who goes back to an unmarked
// beginning would go on as at the end, so the mf of an unmarked layer (our choice) is
// said where the end differs from it. By hand.
func TestARepeatedSectionSaysHowItBegins(t *testing.T) {
	for _, c := range []struct{ end, layer, plan, want string }{
		{"repeat", "", "{at: bar 2, dynamic: ff}", "0 mf, 8 ff"},
		{"repeat 3", "", "{at: bar 2, dynamic: ff}", "0 mf, 8 ff"},
		{"stop", "", "{at: bar 2, dynamic: ff}", "8 ff"},
		{"repeat", "", "{at: bar 2, dynamic: mf}", "8 mf"},
		{"repeat", "", "{at: bar 2, dynamic: ff}, {at: bar 3, dynamic: mf}", "8 ff, 16 mf"},
		{"repeat", "dynamic: p", "{at: bar 2, dynamic: ff}", "0 p, 8 ff"},
		{"repeat", "", "{at: bar 3, hairpin: crescendo, to: bar 4}", "0 mf"},
		{"repeat", "", "{at: bar 1, hairpin: crescendo, to: bar 2}", "0 mf"},
		{"repeat", "", "{at: bar 1, hairpin: crescendo, to: bar 2}, {at: bar 2, dynamic: mf}", "8 mf"},
		{"repeat", "dynamic: mf", "{at: bar 3, hairpin: diminuendo, to: bar 4}", "0 mf"},
		{"repeat", "enters: bar 2", "{at: bar 3, dynamic: ff}", "8 mf, 16 ff"},
		{"repeat", "enters: bar 2", "{at: bar 1, hairpin: crescendo, to: bar 3}", "8 mf"},
		{"repeat", "leaves: bar 2", "{at: bar 3, dynamic: ff}", "16 ff"},
		{"repeat", "", "{at: bar 2, dynamic: sf}", "8 sf"},
		{"repeat", "dynamic: sf", "{at: bar 2, dynamic: ff}", "0 sf, 2 mf, 8 ff"},
		{"repeat", "dynamic: sf", "{at: bar 1 beat 2, dynamic: ff}", "0 sf, 2 ff"},
		{"repeat", "dynamic: fp", "{at: bar 2, dynamic: ff}", "0 fp, 8 ff"},
		{"repeat", "", "{at: bar 2, dynamic: ff, for: B}", ""},
	} {
		s := read(t, "title: T\nmeter: 4/4\nlength: 3 bars\nend: "+c.end+"\nlayers:\n  - {name: A, groups: 2+2+2+2, "+c.layer+"}\n"+
			"  - {name: B, groups: 2+2+2+2}\nplan: ["+c.plan+"]\n").Sections[0]
		assert.Equal(t, c.want, dynamicsOf(s, 0), c)
	}
}

// With a pickup that says nothing, bar 1 says it.
func TestAPickupThatSaysNothingIsMezzoForte(t *testing.T) {
	s := read(t, "title: T\nmeter: 4/4\npickup: 1/4\nlength: 4 bars\nend: repeat\nlayers:\n  - {name: A, line: 'x 2, x 8'}\nplan:\n  - {at: bar 2, dynamic: f}\n").Sections[0]
	assert.Equal(t, "0 mf, 8 f", dynamicsOf(s, 0))
}

// A second section begins anew: who ended the one before otherwise reads it there, also
// a player's other layer; who had been silent, or was at mf again, needs nothing.
func TestASectionAfterAnotherSaysHowItBegins(t *testing.T) {
	const layers = "  - {name: A, player: P, groups: 2+2+2+2}\n  - {name: C, groups: 2+2+2+2}\n"
	const first = "title: T\nmeter: 4/4\nlength: 3 bars\nlayers:\n  - {name: B, player: P, groups: 2+2+2+2}\n  - {name: C, groups: 2+2+2+2}\nplan: ["
	p := read(t, first+"{at: bar 2, dynamic: ff}]\n", "title: T\nmeter: 4/4\nlength: 1 bar\nlayers:\n"+layers+"plan: [{at: bar 1, dynamic: p, for: C}]\n",
		"title: T\nmeter: 4/4\nlength: 1 bar\nlayers:\n"+layers)
	assert.Equal(t, []string{"0 mf", "0 p"}, []string{dynamicsOf(p.Sections[1], 0), dynamicsOf(p.Sections[1], 1)})
	assert.Equal(t, []string{"", "0 mf"}, []string{dynamicsOf(p.Sections[2], 0), dynamicsOf(p.Sections[2], 1)})
	p = read(t, first+"{at: bar 2, dynamic: ff, for: B}]\n", "title: T\nmeter: 4/4\nlength: 1 bar\nlayers:\n"+layers)
	assert.Equal(t, []string{"0 mf", ""}, []string{dynamicsOf(p.Sections[1], 0), dynamicsOf(p.Sections[1], 1)})
}
