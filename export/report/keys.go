package report

import (
	"fmt"
	"io"
)

// field is one key of an object of the JSON: what it means, and its value. These
// tables make the JSON and its documentation.
type field[T any] struct {
	key, means string
	value      func(*facts, T) any
}

// absent as a value leaves its key out.
type absent struct{}

// unless leaves a key out under a condition.
func unless(out bool, v any) any {
	if out {
		return absent{}
	}
	return v
}

// each is a list that is written while it is walked; an element that is an
// inside is an object over several lines.
type each func(yield func(any) bool)

// inside writes the members of an object that may be long.
type inside func()

// member is a key with its value, object all of them on one line.
type (
	member struct {
		key   string
		value any
	}
	object []member
)

// line makes an object of short values.
func line[T any](j *facts, table []field[T], v T) object {
	out := make(object, 0, len(table))
	for _, f := range table {
		if x := f.value(j, v); x != (absent{}) {
			out = append(out, member{f.key, x})
		}
	}
	return out
}

// lines makes a list of such objects.
func lines[T any](j *facts, table []field[T], all []T) each {
	return func(yield func(any) bool) {
		for _, v := range all {
			if !yield(line(j, table, v)) {
				return
			}
		}
	}
}

// fill writes the members of an object that may be long.
func fill[T any](j *facts, table []field[T], v T) {
	for _, f := range table {
		j.member(f.key, f.value(j, v))
	}
}

func (s *stream) member(key string, v any) {
	switch v := v.(type) {
	case absent:
	case inside:
		s.object(key, v)
	case each:
		s.list(key, func() {
			for e := range v {
				s.member("", e)
			}
		})
	default:
		s.value(key, v)
	}
}

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
