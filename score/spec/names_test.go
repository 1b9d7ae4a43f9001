package spec

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
)

// A letter and its accent are one letter, however an editor stores them, and
// blanks around a name are none of it: the names below all mean one layer.
func TestNamesThatLookAlike(t *testing.T) {
	const composed, apart = "\u00c9cluse", "E\u0301cluse"
	p := readText(t, "title: Towpath\nlength: 4 bars\nrealign: ["+apart+", Bell]\nlayers:\n"+
		"  - {name: "+composed+", groups: 3+2, player: "+apart+"}\n  - {name: Bell, groups: 4, player: \" "+composed+" \"}\n"+
		"plan:\n  - {at: "+apart+" cycle 3, text: here}\n  - {at: bar 2, dynamic: f, for: ["+apart+"]}\n")
	s := p.Sections[0]
	assert.Equal(t, []int{0, 1}, s.Set)
	assert.Len(t, p.Players(), 1)
	loud := slices.IndexFunc(s.Plan, func(e score.PlanEntry) bool { return e.Dynamic == "f" })
	require.GreaterOrEqual(t, loud, 0)
	assert.Equal(t, []string{composed}, s.Plan[loud].For)
	assert.Equal(t, composed, s.Layers[0].Name)
}

// yes is yes in every YAML: some editors write true for it.
func TestYesIsTrue(t *testing.T) {
	for said, rests := range map[string]bool{"yes": true, "true": true, "no, groups: 5": false, "false, groups: 5": false} {
		p := readText(t, "title: Towpath\nlength: 4 bars\nlayers:\n  - name: Bell\n    groups: 3+2\n    except: {cycle: 2, rest: "+said+"}\n")
		assert.Equal(t, rests, p.Sections[0].Layers[0].Except[0].Rest, said)
	}
}
