package spec

import (
	"go.yaml.in/yaml/v3"

	"tieover/score"
	"tieover/score/spec/grammar"
)

// deviation is one entry of `except:` while it is read.
type deviation struct {
	score.Exception
	unread bool // rest: has no word that we know
}

func exceptKeys() []field[deviation] {
	return []field[deviation]{
		numberField("cycle", 1, grammar.MaxPlace, func(d *deviation) *int { return &d.Cycle }),
		numberField("bar", 1, grammar.MaxPlace, func(d *deviation) *int { return &d.Bar }),
		{"rest", func(r *reader, n *yaml.Node, d *deviation) {
			yes, ok := r.yes(n, "rest")
			d.Rest, d.unread = yes, !ok
		}},
		{"groups", nil},
		{"box", nil},
		{"pitches", nil},
	}
}

// readExcept reads the cycles and bars in which a layer deviates.
func (r *reader) readExcept(v *voice) {
	n := v.keys["except"]
	if n == nil || v.keys["line"] != nil || !r.notEmpty(n, "except") {
		return
	}
	seen := map[[2]int]bool{}
	for _, item := range items(n) {
		d := deviation{Exception: score.Exception{Pos: r.at(item)}}
		found, ok := readMap(r, item, "an exception", exceptKeys(), &d)
		if !ok || !r.readDeviation(v, item, found, &d) {
			continue
		}
		at := [2]int{d.Cycle, d.Bar}
		if seen[at] {
			r.wrong(d.Pos, "put both into one entry", "two exceptions for the same place")
			continue
		}
		seen[at] = true
		v.Except = append(v.Except, d.Exception)
	}
}

func (r *reader) readDeviation(v *voice, item *yaml.Node, found nodes, d *deviation) bool {
	before := len(r.problems)
	switch {
	case found["cycle"] != nil && found["bar"] != nil, found.lacks("cycle") && found.lacks("bar"):
		r.wrong(r.at(item), "write cycle: 3 or bar: 5", "an exception is for one cycle or for one bar")
	case found.lacks("groups") && found.lacks("box") && found.lacks("pitches") && !d.Rest && !d.unread:
		r.wrong(r.at(item), "add groups:, box:, pitches: or rest: yes", "an exception does not say what deviates")
	case d.Rest && (found["groups"] != nil || found["box"] != nil || found["pitches"] != nil):
		r.wrong(r.at(item), "remove rest:, or all the others", "an exception that rests has nothing else")
	}
	if found["groups"] != nil || found["box"] != nil {
		switch all := r.patterns(found["groups"], found["box"]); {
		case len(all) == 1:
			d.Pattern = &all[0]
		case len(all) > 1:
			r.wrong(r.at(item), "write a single cycle", "an exception replaces one cycle, not a list of them")
		}
	}
	if n := found["pitches"]; n != nil && v.Instrument != nil {
		switch {
		case !v.named:
			r.wrong(r.at(n), guess(v.Name), "%s has pitches but no instrument", v.byName())
		case n.Kind == yaml.SequenceNode:
			r.wrong(r.at(n), "write a single series", "an exception has one pitch series, not a list of them")
		default:
			d.Series, _ = r.series(n, v)
		}
	}
	return len(r.problems) == before
}
