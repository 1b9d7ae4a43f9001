package spec

import (
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score/instrument"
)

// field is one key of a map in the spec. A nil read means that the key is read
// later, together with others.
type field[T any] struct {
	name string
	read func(r *reader, n *yaml.Node, to *T)
}

// nodes holds the value nodes of a map by key. What an unknown key was meant
// to be has a ? before it.
type nodes map[string]*yaml.Node

// has reports whether a key is there, if only mistyped.
func (n nodes) has(key string) bool { return n[key] != nil || n["?"+key] != nil }

// readMap reads a map whose keys are known. It reports unknown, repeated and
// empty keys and hands each known value to its field.
func readMap[T any](r *reader, n *yaml.Node, what string, known []field[T], to *T) (nodes, bool) {
	if isNull(n) {
		r.wrong(r.at(n), "write its keys, each as name: value", "%s is empty", what)
		return nil, false
	}
	if n.Kind != yaml.MappingNode {
		r.wrong(r.at(n), "write its keys, each as name: value", "%s must be a map of keys", what)
		return nil, false
	}
	names := make([]string, len(known))
	byName := map[string]field[T]{}
	for i, f := range known {
		names[i] = f.name
		byName[f.name] = f
	}
	found := nodes{}
	flow := n.Style&yaml.FlowStyle != 0
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		name, ok := r.key(key, what)
		if !ok {
			continue
		}
		f, ok := byName[name]
		if !ok {
			if meant := r.unknown(key, value, what, names, flow); meant != "" {
				found["?"+meant] = value
			}
			continue
		}
		if earlier, twice := found[name]; twice {
			r.wrong(r.at(key), "keep one of them", "%q stands twice in %s (first on line %d)", name, what, earlier.Line)
			continue
		}
		found[name] = value
		if isNull(value) {
			r.wrong(r.at(key), "give it one, or remove the key", "%q has no value", name)
			continue
		}
		if f.read != nil {
			f.read(r, value, to)
		}
	}
	return found, true
}

func (r *reader) key(key *yaml.Node, what string) (string, bool) {
	if key.Kind != yaml.ScalarNode {
		r.wrong(r.at(key), "write a plain word before the colon", "a key of %s must be a single word", what)
		return "", false
	}
	return key.Value, true
}

func (r *reader) unknown(key, value *yaml.Node, what string, names []string, flow bool) (meant string) {
	if r.full() {
		return ""
	}
	name := key.Value
	if flow && isNull(value) {
		if at := strings.Index(name, ":"); at > 0 && at < len(name)-1 {
			r.wrong(r.at(key), "write "+name[:at]+": "+name[at+1:], "a space is missing after the colon of %q", short(name))
			return name[:at]
		}
		r.wrong(r.at(key), "quote text that has a comma", "%q is no key of %s and has no value", short(name), what)
		return ""
	}
	hint := "known keys are " + strings.Join(names, ", ")
	if now, renamed := renamedKeys()[name]; renamed && contains(names, now) {
		hint, meant = "did you mean "+now+"?", now
	} else if near := instrument.Nearest(strings.Trim(name, "-_ "), names); len(near) > 0 {
		hint, meant = "did you mean "+list(near)+"?", near[0]
	}
	r.wrong(r.at(key), hint, "unknown key %q in %s", short(name), what)
	return meant
}

func contains(names []string, name string) bool {
	for _, n := range names {
		if n == name {
			return true
		}
	}
	return false
}

// renamedKeys are words that people try for our keys.
func renamedKeys() map[string]string {
	return map[string]string{
		"bpm": "tempo", "time": "meter", "time-signature": "meter", "signature": "meter", "unit": "pulse",
		"notes": "pitches", "series": "pitches", "sounds": "pitches", "pattern": "groups", "grouping": "groups", "cycle": "groups",
		"rhythm": "box", "voices": "layers", "tracks": "layers", "parts": "layers", "staves": "layers",
		"abbreviation": "short", "every": "after", "reverse": "retrograde", "add": "append",
		"articulation": "touches", "articulations": "touches", "exceptions": "except", "processes": "process",
		"start": "enters", "stop": "leaves", "delay": "offset", "lyrics": "syllables", "words": "text", "amount": "by",
		"duration": "length", "repeat": "end", "place": "at", "volume": "dynamic",
	}
}

// renamedWords are words that people try for values of ours.
func renamedWords() map[string]string {
	return map[string]string{
		"fill": "all", "cut at barlines": "cut", "tie": "tied", "sustain": "hold", "staccato": "short", "yes": "group",
		"accented": "accent", "dead": "ghost", "crescendo": "crescendo", "decrescendo": "diminuendo",
	}
}

// names lists the keys of a table, for the schema.
func names[T any](known []field[T]) []string {
	all := make([]string, len(known))
	for i, f := range known {
		all[i] = f.name
	}
	return all
}
