package report

import (
	"fmt"
	"io"
)

// The tables of fields make the documentation of the JSON, too.

// keys is the documentation of one object: where it stands, and its keys.
type keys struct {
	path string
	rows [][2]string
}

func keysOf[T any](path string, table []field[T]) keys {
	k := keys{path: path}
	for _, f := range table {
		k.rows = append(k.rows, [2]string{f.key, f.means})
	}
	return k
}

// WriteKeys writes the documentation of all keys, a table an object.
func WriteKeys(w io.Writer) error {
	for _, k := range documented() {
		if _, err := fmt.Fprintf(w, "\n## %s\n\n| key | holds |\n| --- | --- |\n", k.path); err != nil {
			return err
		}
		for _, row := range k.rows {
			if _, err := fmt.Fprintf(w, "| `%s` | %s |\n", row[0], row[1]); err != nil {
				return err
			}
		}
	}
	return nil
}

// documented lists all objects in the order in which a reader meets them.
func documented() []keys {
	return []keys{
		keysOf("A section", sectionKeys()),
		keysOf("tempos[]", tempoKeys), keysOf("speeds[]", speedKeys), keysOf("A meeting", meetingKeys), keysOf("resultant", resultantKeys),
		keysOf("layers[]", layerKeys()), keysOf("A drift", driftKeys),
		keysOf("layers[].patterns[] and rhythm", groupingKeys), keysOf("names[]", nameKeys),
		keysOf("layers[].heardAs[]", hearingKeys()), keysOf("layers[].heardAs[].realignments[]", feltKeys),
		keysOf("layers[].cycles[]", cycleKeys), keysOf("drift.barline, drift.layers.NAME of a cycle", stepKeys),
		keysOf("layers[].attacks[]", attackKeys),
		keysOf("realignments[]", realignmentKeys), keysOf("alsoTogether[]", asideKeys), keysOf("pairs[]", pairKeys), keysOf("alike[]", alikeKeys),
		keysOf("colors[]", colorKeys), keysOf("cuttings[]", cuttingKeys), keysOf("cuttings[].kinds[]", cutoffKeys),
		keysOf("journeys[]", journeyKeys()), keysOf("journeys[].steps[]", journeyStepKeys),
		keysOf("composite[]", compositeKeys), keysOf("onePlayer", aloneKeys),
		keysOf("ends[]", endKeys), keysOf("barrings[]", barringKeys), keysOf("pivots[]", pivotKeys),
		keysOf("fit --json", fitKeys()), keysOf("fit: cut", fitCutKeys), keysOf("fit: changes[]", changeKeys),
		keysOf("fit: loopClosings[], landing stroke extra", leadKeys), keysOf("fit: closings[]", closingKeys),
	}
}
