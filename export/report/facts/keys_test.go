package facts

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/analysis/fit"
	"tieover/score/analysis/timeline"
	"tieover/score/spec/spectest"
)

var update = flag.Bool("update", false, "rewrite the goldens; read them before committing")

// keys is the documentation of one object: where it stands, and its keys.
type keys struct {
	path   string
	fields []field
}

// documented lists all objects in the order in which a reader meets them. Only
// their keys are looked at.
func documented(s *score.Section) []keys {
	j := newSection(s)
	l := j.f.Layers[0]
	loop := fit.LoopOf(s)
	return []keys{
		{"A section", j.fields()},
		{"tempos[]", j.tempo(s.Tempos()[0])}, {"speeds[]", j.speed(s.Speeds()[0])},
		{"A meeting", j.meeting(j.f.Together, false)}, {"resultant", j.resultant(&analysis.Resultant{}).(object)},
		{"layers[]", j.layer(l)}, {"A drift", j.drift(analysis.Drift{Steps: 1}, nil).(object)},
		{"layers[].patterns[] and rhythm", j.grouping(l.Groups[0])}, {"names[]", name(timeline.Match{})},
		{"layers[].heardAs[]", j.hearing(analysis.Hearing{})}, {"layers[].heardAs[].realignments[]", felt(analysis.Felt{})},
		{"layers[].cycles[]", j.cycle(&score.Cycle{}, nil)}, {"drift.barline, drift.layers.NAME of a cycle", step(analysis.Step{})},
		{"layers[].attacks[]", j.attack(0, &score.Attack{})},
		{"realignments[]", j.realignment(score.Realignment{})}, {"alsoTogether[]", j.aside(0)},
		{"pairs[]", j.pair(analysis.Pair{})}, {"alike[]", j.alike(analysis.Alike{AttacksA: 1})},
		{"colors[]", j.color(analysis.Color{})}, {"cuttings[]", j.cutting(analysis.Cutting{})},
		{"cuttings[].kinds[]", j.cutoff(analysis.Cutoff{})},
		{"journeys[]", j.journey(analysis.Journey{})}, {"journeys[].steps[]", j.journeyStep(analysis.JourneyStep{})},
		{"composite[]", j.moment(analysis.Moment{})}, {"onePlayer", j.alone(analysis.Alone{})},
		{"ends[]", j.ending(l)}, {"barrings[]", j.barring(analysis.Barring{})}, {"pivots[]", j.pivot(analysis.Pivot{})},
		{"fit --json", fitting(loop)}, {"fit: cut", cut(loop)}, {"fit: changes[]", change(fit.Change{})},
		{"fit: loopClosings[], landing stroke extra", lead(fit.Lead{})}, {"fit: closings[]", stretch(fit.Stretch{})},
	}
}

// The documentation of the keys in help json is what the fields say that make the
// JSON: all of it, in their order.
func TestKeysAreDocumented(t *testing.T) {
	const name = "../../../cmd/tieover/help/json.md"
	doc, err := os.ReadFile(name)
	require.NoError(t, err)
	intro, said, found := strings.Cut(string(doc), "\n## ")
	require.True(t, found)
	said, others, found := strings.Cut(said, "\n## find --json\n") // what other commands write
	require.True(t, found)
	p := spectest.Read(t, "title: T\nmeter: 4/4\nlength: 1 bars\nlayers: [{name: A, groups: 3+2}]\n")
	var want strings.Builder
	for _, k := range documented(p.Sections[0]) {
		fmt.Fprintf(&want, "\n## %s\n\n| key | holds |\n| --- | --- |\n", k.path)
		for _, f := range k.fields {
			fmt.Fprintf(&want, "| `%s` | %s |\n", f.key, f.means)
		}
	}
	if *update {
		require.NoError(t, os.WriteFile(name, []byte(intro+want.String()+"\n## find --json\n"+others), 0o644))
		return
	}
	assert.Equal(t, want.String(), "\n## "+said, "go test ./export/report/facts -update writes it anew")
}
