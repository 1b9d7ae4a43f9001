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

// Inside a section too: who goes on with an unmarked layer after a marked one is told mf
// at its entry, unless another of the player's layers is still there, and at the
// beginning where a repeat comes back to it. Four bars of 4/4. By hand.
func TestAPlayerWhoGoesOnIsToldTheDynamic(t *testing.T) {
	for _, c := range []struct{ end, first, second, plan, a, b string }{
		{"stop", "dynamic: f, leaves: bar 3", "enters: bar 3", "", "0 f", "16 mf"},
		{"stop", "dynamic: f, leaves: bar 2", "enters: bar 3", "", "0 f", "16 mf"},
		{"stop", "dynamic: mf, leaves: bar 3", "enters: bar 3", "", "0 mf", ""},
		{"stop", "leaves: bar 3", "enters: bar 3", "", "", ""},
		{"stop", "leaves: bar 3", "enters: bar 3", "{at: bar 2, hairpin: crescendo, to: bar 3}", "", "16 mf"},
		{"stop", "leaves: bar 3", "enters: bar 3, dynamic: p", "{at: bar 2, dynamic: ff}", "8 ff", "16 p"},
		{"stop", "dynamic: f, leaves: bar 4", "enters: bar 3", "", "0 f", ""},
		{"stop", "dynamic: f, leaves: bar 3", "enters: bar 3", "{at: bar 3, dynamic: f, for: B}", "0 f", "16 f"},
		{"repeat", "leaves: bar 3", "enters: bar 3, dynamic: p", "", "0 mf", "16 p"},
		{"repeat", "leaves: bar 3", "enters: bar 3", "", "", ""},
	} {
		s := read(t, "title: T\nmeter: 4/4\nlength: 4 bars\nend: "+c.end+"\nlayers:\n  - {name: A, player: P, groups: 2+2+2+2, "+c.first+"}\n"+
			"  - {name: B, player: P, groups: 2+2+2+2, "+c.second+"}\n  - {name: C, groups: 2+2+2+2}\nplan: ["+c.plan+"]\n").Sections[0]
		assert.Equal(t, []string{c.a, c.b}, []string{dynamicsOf(s, 0), dynamicsOf(s, 1)}, c)
	}
}

// A repeat leaves the pickup out, and with it the layer that is there alone: the player
// comes to the layer of bar 1 from the last one. Four bars of 4/4. By hand.
func TestARepeatPastThePickupSaysHowItBegins(t *testing.T) {
	for _, c := range []struct{ end, up, last, up0, b0 string }{
		{"repeat", "leaves: bar 1", "dynamic: ff", "", "0 mf"},
		{"stop", "leaves: bar 1", "dynamic: ff", "", ""},
		{"repeat", "leaves: bar 1", "", "", ""},
		{"repeat", "leaves: bar 1, dynamic: p", "", "-2 p", "0 mf"},
		{"repeat", "leaves: bar 2", "dynamic: ff", "0 mf", "0 mf"},
	} {
		s := read(t, "title: T\nmeter: 4/4\npickup: 1/4\nlength: 4 bars\nend: "+c.end+"\nlayers:\n  - {name: Up, player: P, groups: 2, enters: pickup, "+c.up+"}\n"+
			"  - {name: B, player: P, groups: 4+4, enters: bar 1, leaves: bar 3}\n  - {name: C, player: P, groups: 4+4, enters: bar 3, "+c.last+"}\n").Sections[0]
		assert.Equal(t, []string{c.up0, c.b0}, []string{dynamicsOf(s, 0), dynamicsOf(s, 1)}, c)
	}
}

// A hairpin changes what can grow: two attacks of a player, or a sound that is held. In
// 4/4 the drums of one player strike at eighths 0 and 4, 8 and 12 …, or once a bar. By hand.
func TestWhomAHairpinSwells(t *testing.T) {
	const held, dry = "instrument: flute, pitches: C5", "instrument: claves"
	for _, c := range []struct {
		a, b   string
		swells []bool
	}{
		{"groups: 4+4, " + dry, "groups: 8, " + dry, []bool{true, false}},
		{"groups: 8, " + dry, "groups: 8", []bool{false, true}},
		{"groups: 8, touches: roll, instrument: snare drum, pitches: snare", "groups: 8, " + dry, []bool{true, false}},
		{"groups: 8, player: P, instrument: drum set, pitches: snare", "groups: 4+4, player: P, instrument: drum set, pitches: kick", []bool{true, true}},
		{"groups: 8, player: P, instrument: drum set, pitches: snare", "groups: 8, player: P, instrument: drum set, pitches: kick", []bool{false, false}},
		{"groups: 8, player: P, instrument: drum set, pitches: snare", "groups: 8, offset: 4, player: P, instrument: drum set, pitches: kick", []bool{true, true}},
		{"groups: 8, " + held, "groups: 8, leaves: bar 2, " + held, []bool{true, false}},
		{"groups: 32, " + held, "groups: 4+4, except: [{bar: 2, rest: yes}], " + held, []bool{true, false}},
	} {
		s := read(t, "title: T\nmeter: 4/4\nlength: 4 bars\nlayers:\n  - {name: A, "+c.a+"}\n  - {name: B, "+c.b+"}\n"+
			"plan: [{at: bar 2, hairpin: crescendo, to: bar 3}]\n").Sections[0]
		assert.Equal(t, c.swells, []bool{s.Plan[0].Swells(s.Layers[0]), s.Plan[0].Swells(s.Layers[1])}, c)
	}
}
