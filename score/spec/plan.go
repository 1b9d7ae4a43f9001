package spec

import (
	"regexp"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score"
	"tieover/score/spec/grammar"
)

// entry is one entry of the plan while it is read.
type entry struct {
	score.PlanEntry
	section *draft
}

func hairpinWords() []string { return []string{"crescendo", "diminuendo"} }

func planKeys() []field[entry] {
	return []field[entry]{
		{"at", func(r *reader, n *yaml.Node, e *entry) {
			if p := r.planPlace(n, e.section, "at"); p != nil {
				e.At = *p
			}
		}},
		textField("mark", func(e *entry) *string { return &e.Mark }),
		{"text", readPlanText},
		{"chord", readChord},
		{"meter", func(r *reader, n *yaml.Node, e *entry) {
			e.Meter, _ = r.meter(n)
			for _, sig := range e.Meter {
				e.section.need(r, n, "", termSpans(sig)...)
			}
		}},
		{"tempo", func(r *reader, n *yaml.Node, e *entry) { e.Tempo = optional(r.tempo(n)) }},
		{"key", func(r *reader, n *yaml.Node, e *entry) { e.Key = optional(r.signature(n)) }},
		yesField("fermata", func(e *entry) *bool { return &e.Fermata }),
		{"clef", func(r *reader, n *yaml.Node, e *entry) { e.Clef = r.clef(n) }},
		wordField("dynamic", dynamicWords(), func(e *entry) *string { return &e.Dynamic }),
		{"hairpin", func(r *reader, n *yaml.Node, e *entry) {
			if i, ok := r.choice(n, "hairpin", hairpinWords()); ok {
				e.Hairpin = score.Crescendo + score.Hairpin(i)
			}
		}},
		yesField("slur", func(e *entry) *bool { return &e.Slur }),
		{"written", func(r *reader, n *yaml.Node, e *entry) { e.Written = optional(r.writing(n)) }},
		{"to", func(r *reader, n *yaml.Node, e *entry) { e.To = r.planPlace(n, e.section, "to") }},
		{"for", readFor},
	}
}

// readFor reads whose the signs of players are: layers, players or all.
func readFor(r *reader, n *yaml.Node, e *entry) {
	names := r.named(n, "for")
	isLayer := func(name string) bool {
		return slices.ContainsFunc(e.section.Layers, func(l *score.Layer) bool { return l.Name == name || l.Player == name })
	}
	if len(names) == 1 && names[0].Name == "all" && !isLayer("all") {
		e.ForAll = true
		return
	}
	for _, name := range names {
		e.For = append(e.For, name.Name)
		if !isLayer(name.Name) {
			r.wrong(name.Pos, e.section.nameHint(name.Name), "for names %q, but nobody is called that", grammar.Shortened(name.Name))
		}
	}
}

// ofPlayers are the keys of the plan that for serves, everybodys the others.
var (
	ofPlayers  = []string{"text", "chord", "dynamic", "hairpin", "clef", "slur", "written"}
	everybodys = []string{"mark", "meter", "tempo", "key", "fermata"}
)

// checkFor refuses a for in an entry in which it serves nothing.
func (r *reader) checkFor(found nodes) {
	has := func(key string) bool { return found[key] != nil }
	if !has("for") || slices.ContainsFunc(ofPlayers, has) {
		return
	}
	if i := slices.IndexFunc(everybodys, has); i >= 0 {
		r.wrong(r.at(found["for"]), "remove it; marks, tempo, meter, key and fermata are everybody's", "for is of no use with a %s", everybodys[i])
	}
}

// readPlanText reads words above the staff; only these may be a block.
func readPlanText(r *reader, n *yaml.Node, e *entry) {
	if n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) == 0 {
		e.Text, _ = r.name(n, "text")
		return
	}
	s := grammar.JoinLines(n.Value)
	if r.clean(n, s, "text") {
		e.Text = s
	}
}

var chordSymbol = regexp.MustCompile(`^[A-G](#|b|♯|♭)?[^\s/]*(/[A-G](#|b|♯|♭)?)?$`)

func readChord(r *reader, n *yaml.Node, e *entry) {
	s, ok := r.name(n, "chord")
	if !ok {
		return
	}
	if s != "N.C." && !chordSymbol.MatchString(s) {
		r.wrong(r.at(n), "write a root and a kind, as in F#m7/E, or N.C.", "%q is no chord symbol", grammar.Shortened(s))
		return
	}
	e.Chord = s
}

func (r *reader) planPlace(n *yaml.Node, d *draft, what string) *score.Place {
	p, ok := parseText(r, n, what, func(s string) (score.Place, *grammar.Slip) { return grammar.Place(s, true) })
	if !ok {
		return nil
	}
	p.Pos, p.Layer = r.at(n), Name(p.Layer)
	if p.Kind != score.AtCycle && p.Kind != score.AtAttack {
		return &p
	}
	switch {
	case p.Layer != "":
	case len(d.Layers) == 1:
		p.Layer = d.Layers[0].Name
	case p.Kind == score.AtAttack && len(d.Layers) > 0:
		r.wrong(p.Pos, "write "+grammar.Shortened(d.Layers[0].Name+" "+p.String()), "an attack needs its layer")
		return nil
	default:
		r.wrong(p.Pos, "write whose, as in Marimba cycle 3", "%q does not say which layer's cycle", grammar.Shortened(n.Value))
		return nil
	}
	r.layerNamed(d, score.Named{Name: p.Layer, Pos: p.Pos}, what)
	return &p
}

// readPlan reads what happens at structural moments.
func (r *reader) readPlan(n *yaml.Node, d *draft) {
	if n.Kind != yaml.SequenceNode {
		r.wrong(r.at(n), "begin each entry with - {at: …}", "the plan must be a list")
		return
	}
	for _, item := range n.Content {
		e := entry{section: d}
		found, ok := readMap(r, item, "a plan entry", planKeys(), &e)
		if !ok {
			continue
		}
		r.checkEntry(item, found, &e)
		d.Plan = append(d.Plan, e.PlanEntry)
	}
}

// checkChord warns of a chord symbol that is to be transposed for somebody and
// cannot be read.
func (r *reader) checkChord(n *yaml.Node, e *entry) {
	if n == nil || e.Chord == "" {
		return
	}
	if _, ok := score.ParseHarmony(e.Chord); ok {
		return
	}
	var names []string
	for _, l := range e.section.Layers {
		if i := l.Instrument; i != nil && !i.IsUnpitched() && (i.Diatonic%7 != 0 || i.Chromatic%12 != 0) && !slices.Contains(names, l.PlayerName()) {
			names = append(names, l.PlayerName())
		}
	}
	if len(names) > 0 {
		r.warn(r.at(n), "write a kind such as m7, maj9, 7(b9,#5), sus4", "chord %q cannot be read, so it stays as it is for %s", grammar.Shortened(e.Chord), strings.Join(names, ", "))
	}
}

// checkEnd refuses what lasts and has no end, and an end of nothing that lasts.
func (r *reader) checkEnd(item *yaml.Node, found nodes, e *entry) {
	ends := found["to"] != nil
	gradual := e.Tempo != nil && e.Tempo.IsGradual()
	lasts := gradual || found["hairpin"] != nil || found["slur"] != nil
	misread := found["tempo"] != nil && e.Tempo == nil
	switch {
	case gradual && !ends:
		r.wrong(r.at(found["tempo"]), "write to:", "%s needs its end", e.Tempo.Words)
	case found["hairpin"] != nil && !ends:
		r.wrong(r.at(item), "write to:", "a hairpin needs its end")
	case found["slur"] != nil && !ends:
		r.wrong(r.at(item), "write to:", "a slur needs its end")
	case ends && !lasts && !misread && found.lacks("written"):
		r.wrong(r.at(found["to"]), "remove it, or write hairpin:, slur: or tempo: rit. with it", "to says where something ends, and nothing that lasts begins here")
	}
}

func (r *reader) checkEntry(item *yaml.Node, found nodes, e *entry) {
	r.checkChord(found["chord"], e)
	if found.lacks("at") {
		r.wrong(r.at(item), "add at: bar 5, or another place", "a plan entry does not say when")
	} else if len(found) == 1 || len(found) == 2 && found["for"] != nil {
		r.wrong(r.at(item), "add mark:, text:, meter:, tempo:, key:, fermata:, chord:, dynamic:, hairpin:, slur:, clef: or written:", "nothing happens at this plan entry")
	}
	r.checkEnd(item, found, e)
	r.checkFor(found)
	for _, key := range []string{"meter", "key", "clef"} {
		if found[key] != nil && e.At.Kind == score.AtBar && e.At.Beat > 1 {
			r.wrong(r.at(found[key]), "put it at the bar's start", "a %s can change only at a barline", key)
		}
	}
	for _, l := range e.section.Layers {
		if e.Serves(l) {
			r.checkClef(found["clef"], e.Clef, l)
			r.checkSlurs(found["slur"], l)
		}
	}
}
