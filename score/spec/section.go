package spec

import (
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/source"
	"tieover/score/spec/grammar"
)

// MaxLayers is how many layers a section may have.
const MaxLayers = 64

// draft is a section while it is read.
type draft struct {
	score.Section
	title, subtitle, composer, arranger, rights string

	voices []*voice // of the section's layers, in their order
	needs  []need
	titled source.Pos
}

// need is something that the grid must hold.
type need struct {
	span beat.Span
	pos  source.Pos
	what string // "" for what needs no naming
}

// need records what the grid must hold, at the first place that asks for it.
func (d *draft) need(r *reader, n *yaml.Node, what string, spans ...beat.Span) {
	for _, s := range spans {
		if !slices.ContainsFunc(d.needs, func(known need) bool { return known.span.Den() == s.Den() && known.what == what }) {
			d.needs = append(d.needs, need{s, r.at(n), what})
		}
	}
}

func sectionKeys() []field[draft] {
	return []field[draft]{
		textField("title", func(d *draft) *string { return &d.title }),
		textField("subtitle", func(d *draft) *string { return &d.subtitle }),
		textField("composer", func(d *draft) *string { return &d.composer }),
		textField("arranger", func(d *draft) *string { return &d.arranger }),
		textField("rights", func(d *draft) *string { return &d.rights }),
		textField("section", func(d *draft) *string { return &d.Name }),
		{"tempo", readTempo},
		{"meter", func(r *reader, n *yaml.Node, d *draft) {
			if m, ok := r.meter(n); ok {
				d.Meter = m
			}
		}},
		{"pulse", func(r *reader, n *yaml.Node, d *draft) { r.pulse(n, d, &d.Pulse) }},
		{"length", readLength},
		{"pickup", readPickup},
		{"end", readEnd},
		{"key", func(r *reader, n *yaml.Node, d *draft) { d.Key, _ = r.signature(n) }},
		{"realign", readRealign},
		{"layers", nil},
		{"plan", nil},
		{"recording", nil},
	}
}

// readSection reads one file's section. Layers are read after the section's own
// keys, wherever they are, because they take its pulse.
func (r *reader) readSection(root *yaml.Node) *draft {
	d := &draft{}
	d.Pos = r.at(root)
	d.Meter = score.Meter{score.PlainSignature(4, 4)}
	d.Pulse = beat.Plain(beat.Of(1, 8))
	d.Tempo = score.Tempo{Pos: d.Pos, Quarters: beat.Of(120, 1), Beat: grammar.Quarter(), Rate: beat.Of(120, 1)}
	d.Key = score.Key{None: true}
	d.LengthRule = score.LengthRule{Pos: d.Pos, Kind: score.Realignments, N: 1, Default: true}

	found, ok := readMap(r, root, "the section", sectionKeys(), d)
	if !ok {
		return nil
	}
	if n := found["title"]; n != nil {
		d.titled = r.at(n)
	} else if found.has("title") {
		d.titled = d.Pos
	}
	d.need(r, root, "", d.Pulse.Span())
	for _, sig := range d.Meter {
		d.need(r, root, "", termSpans(sig)...)
	}
	if n := found["layers"]; n != nil {
		r.readLayers(n, d)
	} else if !found.has("layers") {
		r.wrong(d.Pos, "write layers:, and below it a list of layers that begin with - name:", "the section has no layers")
	}
	r.checkRealign(d)
	if n := found["plan"]; n != nil {
		r.readPlan(n, d)
	}
	if n := found["recording"]; n != nil {
		r.readRecording(n, d)
	}
	return d
}

func termSpans(sig score.Signature) []beat.Span {
	spans := make([]beat.Span, len(sig.Terms))
	for i, t := range sig.Terms {
		spans[i] = beat.Of(1, int64(t.Unit))
	}
	return spans
}

func readTempo(r *reader, n *yaml.Node, d *draft) {
	t, ok := r.tempo(n)
	switch {
	case !ok:
	case t.IsGradual():
		r.wrong(r.at(n), "give it a number, and write this in the plan", "a section cannot begin with %s", t.Words)
	default:
		d.Tempo = t
	}
}

func (r *reader) tempo(n *yaml.Node) (score.Tempo, bool) {
	t, ok := parseText(r, n, "tempo", grammar.Tempo)
	if !ok {
		return score.Tempo{}, false
	}
	t.Pos = r.at(n)
	return t, t.Words == "" || r.clean(n, t.Words, "tempo")
}

// meter reads a signature or a rotation of them.
func (r *reader) meter(n *yaml.Node) (score.Meter, bool) {
	if !r.notEmpty(n, "meter") {
		return nil, false
	}
	if len(items(n)) > grammar.MaxSignatures {
		r.wrong(r.at(n), "use plan entries for later changes", "a meter rotates through more than %d signatures", grammar.MaxSignatures)
		return nil, false
	}
	var m score.Meter
	good := true
	for _, item := range items(n) {
		sig, ok := parseText(r, item, "meter", grammar.Signature)
		if ok {
			m = append(m, sig)
		}
		good = good && ok
	}
	return m, good
}

// pulse reads a pulse and lets the grid hold it and its container.
func (r *reader) pulse(n *yaml.Node, d *draft, into *beat.Pulse) {
	if p, ok := parseText(r, n, "pulse", grammar.Pulse); ok {
		d.need(r, n, p.String(), p.Span(), p.Container())
		*into = p
	}
}

func readLength(r *reader, n *yaml.Node, d *draft) {
	if rule, ok := parseText(r, n, "length", grammar.Length); ok {
		rule.Pos = r.at(n)
		d.LengthRule = rule
	}
}

// readPickup reads the pickup, which the grid must hold.
func readPickup(r *reader, n *yaml.Node, d *draft) {
	if length, ok := parseText(r, n, "pickup", grammar.Pickup); ok {
		d.Pickup, d.PickupPos = length, r.at(n)
		d.need(r, n, "", length)
	}
}

func endWords() []string { return []string{"stop", "land", "repeat"} }

func readEnd(r *reader, n *yaml.Node, d *draft) {
	if words := strings.Fields(n.Value); n.Kind == yaml.ScalarNode && len(words) == 2 && words[0] == "repeat" {
		times, ok := grammar.Whole(words[1])
		if !ok || times < 2 || times > 99 {
			r.wrong(r.at(n), "write 2 to 99", "repeat %s is no repeat", grammar.Shortened(words[1]))
			return
		}
		d.End, d.Times = score.Repeat, int(times)
		return
	}
	if i, ok := r.choice(n, "end", endWords()); ok {
		d.End = score.End(i)
	}
}

func (r *reader) signature(n *yaml.Node) (score.Key, bool) {
	return parseText(r, n, "key", grammar.Key)
}

func readRealign(r *reader, n *yaml.Node, d *draft) {
	if r.notEmpty(n, "realign") {
		d.SetNames = r.named(n, "realign")
	}
}

// named reads a list of names.
func (r *reader) named(n *yaml.Node, what string) []score.Named {
	var all []score.Named
	seen := map[string]bool{}
	for _, item := range items(n) {
		s, ok := r.name(item, what)
		if !ok {
			continue
		}
		if seen[s] {
			r.wrong(r.at(item), "name it once", "%q stands twice in %s", grammar.Shortened(s), what)
			continue
		}
		seen[s] = true
		all = append(all, score.Named{Name: s, Pos: r.at(item)})
	}
	return all
}
