// Package templates holds texts that the program hands out or fills in:
// starter specs, the schema of the spec for editors, and the layouts of chart
// and worksheet.
package templates

import "embed"

// Starter is a commented section spec that builds without change.
type Starter struct {
	Name  string // as in `tieover new --like phasing`
	About string // one line for help
}

//go:embed *.yaml
var starters embed.FS

// Schema is the JSON Schema (2020-12) of the section spec, for editors.
//
//go:embed schema.json
var Schema []byte

// Chart is the template of what stands around a chart's rows: "head" and "foot".
//
//go:embed chart.tmpl
var Chart string

// Worksheet is the template of a worksheet: "student" and "key".
//
//go:embed worksheet.tmpl
var Worksheet string

// Starters lists the starter specs, the default first.
func Starters() []Starter {
	return []Starter{
		{"additive", "two additive loops that drift apart and meet again"},
		{"phasing", "one pattern against itself, moving step by step"},
		{"polyrhythm", "eighths, triplets and quintuplets at once"},
		{"isorhythm", "a row of pitches over a rhythm of another length"},
		{"timeline", "a bell pattern with drums against it"},
		{"growing", "groups that grow, cycles that turn"},
		{"cut", "a loop that is cut to fit the bars"},
		{"song", "a free line and chords over loops, entries, changes of meter and tempo"},
		{"kit", "one drummer with two layers"},
		{"sections", "a further section of a piece"},
	}
}

// Spec returns the text of a starter. ok is false for a name that is not in
// Starters.
func Spec(name string) (text []byte, ok bool) {
	for _, s := range Starters() {
		if s.Name == name {
			text, err := starters.ReadFile(name + ".yaml")
			return text, err == nil
		}
	}
	return nil, false
}
