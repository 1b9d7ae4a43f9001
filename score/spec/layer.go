package spec

import (
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
	"tieover/score/source"
	"tieover/score/spec/grammar"
)

// voice is a layer while it is read.
type voice struct {
	*score.Layer
	section *draft
	keys    nodes
	named   bool // an instrument is named, known or not
	tab     bool
	tuning  []score.Tone
	notes   []grammar.LineNote                // of a line, until the grid is known
	chords  map[*score.Tone]func() source.Pos // where those are that a hand may not hold, by their first tones
}

// byName is how messages speak of the layer.
func (v *voice) byName() string {
	if v.Name == "" {
		return "the layer"
	}
	return fmt.Sprintf("layer %q", v.Name)
}

func strikeWords() []string  { return []string{"hold", "short", "all"} }
func accentWords() []string  { return []string{"none", "group", "all"} }
func restartWords() []string { return []string{"cycle", "realignment", "never"} }
func tailWords() []string    { return []string{"tied", "cut"} }
func dynamicWords() []string { return append(score.Dynamics(), "fp", "sf", "sfz") }

func layerKeys() []field[voice] {
	return []field[voice]{
		{"name", readLayerName},
		textField("short", func(v *voice) *string { return &v.Short }),
		textField("player", func(v *voice) *string { return &v.Player }),
		{"instrument", readInstrument},
		{"pulse", func(r *reader, n *yaml.Node, v *voice) { r.pulse(n, v.section, &v.Pulse) }},
		{"groups", nil},
		{"box", nil},
		{"line", nil},
		choiceField("strike", strikeWords(), func(v *voice) *score.Strike { return &v.Strike }),
		{"figures", nil},
		choiceField("accent", accentWords(), func(v *voice) *score.Accent { return &v.Accent }),
		{"touches", readTouches},
		{"slurs", readSlurs},
		{"pitches", nil},
		choiceField("restart", restartWords(), func(v *voice) *score.Restart { return &v.Restart }),
		choiceField("tails", tailWords(), func(v *voice) *score.Tails { return &v.Tails }),
		{"written", func(r *reader, n *yaml.Node, v *voice) { v.Written, _ = r.writing(n) }},
		wordField("dynamic", dynamicWords(), func(v *voice) *string { return &v.Dynamic }),
		{"clef", func(r *reader, n *yaml.Node, v *voice) { v.Clef = r.clef(n) }},
		yesField("tab", func(v *voice) *bool { return &v.tab }),
		{"tuning", readTuning},
		{"pan", func(r *reader, n *yaml.Node, v *voice) {
			if x, ok := r.number(n, "pan", -90, 90); ok {
				pan := int(x)
				v.Pan = &pan
			}
		}},
		{"enters", func(r *reader, n *yaml.Node, v *voice) { v.EnterAt = r.place(n, "enters") }},
		{"leaves", func(r *reader, n *yaml.Node, v *voice) { v.LeaveAt = r.place(n, "leaves") }},
		numberField("offset", -1_000_000, 1_000_000, func(v *voice) *int64 { return &v.Offset }),
		{"loop", readLoop},
		{"process", nil},
		{"except", nil},
		{"syllables", nil},
		{"lyrics", readLyrics},
	}
}

func (r *reader) readLayers(n *yaml.Node, d *draft) {
	if n.Kind != yaml.SequenceNode {
		hint := "begin each layer with - name:"
		if n.Kind == yaml.MappingNode && strings.HasPrefix(n.Content[0].Value, "-") {
			hint = "put a space after the hyphen: - " + grammar.Shortened(n.Content[0].Value[1:]) + ":"
		}
		r.wrong(r.at(n), hint, "layers must be a list")
		return
	}
	if !r.notEmpty(n, "layers") {
		return
	}
	if len(n.Content) > MaxLayers {
		r.wrong(r.at(n.Content[MaxLayers]), "leave some out, or divide the section", "more than %d layers in a section", MaxLayers)
		return
	}
	names := map[string]source.Pos{}
	for _, item := range n.Content {
		v := r.readLayer(item, d)
		d.Layers, d.voices = append(d.Layers, v.Layer), append(d.voices, v)
		if v.Name == "" {
			continue
		}
		if first, twice := names[v.Name]; twice {
			r.wrong(r.at(v.keys["name"]), "give each layer its own name; layers of one player may share player:", "two layers are called %q (the other on line %d)", v.Name, first.Line)
			continue
		}
		names[v.Name] = r.at(v.keys["name"])
	}
	r.checkPlayers(d)
	r.checkHands(d)
	r.tellApart(d.voices)
}

// readLayer reads one layer: first the keys that need no others, then those that
// depend on the instrument and on each other.
func (r *reader) readLayer(n *yaml.Node, d *draft) *voice {
	v := &voice{section: d, chords: map[*score.Tone]func() source.Pos{}, Layer: &score.Layer{
		Pos: r.at(n), Instrument: instrument.Rhythm, Pulse: d.Pulse,
	}}
	n, name := r.unnest(n)
	if name != nil {
		v.Name = Name(name.Value)
	}
	keys, ok := readMap(r, n, "a layer", layerKeys(), v)
	if ok && name != nil {
		keys["name"] = name
	}
	v.keys = keys
	if !ok {
		return v
	}
	if !keys.has("name") {
		r.wrong(v.Pos, "write name: and what the part is called", "a layer has no name")
	}
	if v.Strike == score.StrikeAll && v.keys["accent"] == nil {
		v.Accent = score.AccentGroup
	}
	if v.keys["tails"] == nil && v.Instrument != nil && v.Instrument.IsDry() {
		v.Tails = score.CutTails
	}
	if v.Short == "" && v.Name != "" {
		v.Short = abbreviate(v.Name, v.Instrument)
	}
	r.readTab(v)
	r.readRhythm(v)
	r.readPitches(v)
	r.readProcess(v)
	r.readExcept(v)
	r.checkLayer(v)
	return v
}

// unnest recognizes a layer whose keys are nested below its name, reports that, and
// returns the keys and the name; of any other layer just its keys.
func (r *reader) unnest(n *yaml.Node) (keys, name *yaml.Node) {
	if n.Kind != yaml.MappingNode || len(n.Content) != 2 || n.Content[1].Kind != yaml.MappingNode || slices.Contains(names(layerKeys()), n.Content[0].Value) {
		return n, nil
	}
	name = n.Content[0]
	r.wrong(r.at(name), "write - name: "+grammar.Shortened(name.Value)+", and the other keys in line with name", "%q is no key of a layer", grammar.Shortened(name.Value))
	return n.Content[1], name
}

func readLayerName(r *reader, n *yaml.Node, v *voice) {
	s, ok := r.name(n, "name")
	if !ok {
		return
	}
	if s == barlineWord {
		r.wrong(r.at(n), "choose another name", "a layer cannot be called %s: the word means the barline in realign", barlineWord)
		return
	}
	v.Name = s
}

func readInstrument(r *reader, n *yaml.Node, v *voice) {
	v.named = true
	s, ok := r.text(n, "instrument")
	if !ok {
		return
	}
	if i, ok := instrument.Find(s); ok {
		v.Instrument = i
		return
	}
	hint := "`tieover instruments` lists them"
	if called, all := instrument.InKeys(s); len(all) > 0 {
		hint = keysOf(called, all)
	} else if near := instrument.Like(s); len(near) > 0 {
		hint = "did you mean " + beat.Listed(near, "or") + "? " + hint
	}
	r.wrong(r.at(n), hint, "unknown instrument %q", grammar.Shortened(s))
	v.Instrument = nil
}

// keysOf says in which keys an instrument exists: "the trumpets are trumpet (in
// Bb) and trumpet in c".
func keysOf(called string, all []*instrument.Instrument) string {
	if len(all) == 1 {
		return fmt.Sprintf("the %s is in %s", all[0].Name, all[0].KeyName())
	}
	names := make([]string, len(all))
	for k, i := range all {
		names[k] = i.Name
		if i.Name == called {
			names[k] += " (in " + i.KeyName() + ")"
		}
	}
	last := len(names) - 1
	return fmt.Sprintf("the %ss are %s and %s", called, strings.Join(names[:last], ", "), names[last])
}

func (r *reader) place(n *yaml.Node, what string) *score.Place {
	p, ok := parseText(r, n, what, func(s string) (score.Place, *grammar.Slip) { return grammar.Place(s, false) })
	if !ok {
		return nil
	}
	p.Pos = r.at(n)
	return &p
}

func readLoop(r *reader, n *yaml.Node, v *voice) {
	s, ok := r.text(n, "loop")
	if !ok {
		return
	}
	loop, bars, bad := grammar.Loop(s)
	if bad != nil {
		r.slip(n, bad)
		return
	}
	v.Loop, v.CutEvery = loop, bars
}

// step returns the pulse's length divided by n.
func step(p beat.Pulse, n int) beat.Span { return p.Span().Mul(beat.Of(1, int64(n))) }
