package spec

import (
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"
)

// field is one key of a map in the spec. A nil read means that the key is read
// later, together with others.
type field[T any] struct {
	name string
	read func(r *reader, n *yaml.Node, to *T)
}

// nodes holds the value nodes of a map by key. What an unknown key was perhaps
// meant to be has a ? before it; a ? alone is a key that could be anything.
type nodes map[string]*yaml.Node

// has reports whether a key is there, if only by another name.
func (n nodes) has(key string) bool { return n[key] != nil || n["?"+key] != nil }

// lacks reports that a key is missing for certain: no unknown key could be it.
func (n nodes) lacks(key string) bool { return !n.has(key) && n["?"] == nil }

// readMap reads a map whose keys are known. It reports unknown, repeated and
// empty keys and hands each known value to its field.
func readMap[T any](r *reader, n *yaml.Node, what string, known []field[T], to *T) (nodes, bool) {
	if isNull(n) {
		r.wrong(r.at(n), "write its keys, "+example(what), "%s is empty", what)
		return nil, false
	}
	if n.Kind != yaml.MappingNode {
		write := example(what)
		if kind, _, _ := strings.Cut(n.Value, " "); slices.Contains(processKinds(), kind) {
			write = "{" + kind + ": " + example(kind) + "}"
		}
		r.wrong(r.at(n), "write "+write, "%s must be a map of keys", what)
		return nil, false
	}
	names := make([]string, len(known))
	byName := map[string]field[T]{}
	for i, f := range known {
		names[i] = f.name
		byName[f.name] = f
	}
	found := nodes{}
	guessed := map[string]bool{}
	flow := n.Style&yaml.FlowStyle != 0
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		name, ok := r.key(key, what)
		if !ok {
			continue
		}
		if _, ok := byName[name]; !ok {
			meant, sure := r.unknown(key, value, what, names, flow)
			if !sure || found[meant] != nil {
				found["?"+meant], found["?"] = value, value
				continue
			}
			name, guessed[meant] = meant, true // read on as if it were spelled well
		} else if guessed[name] {
			delete(found, name)
			guessed[name] = false
		}
		f := byName[name]
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

// names lists the keys of a table, for the schema.
func names[T any](known []field[T]) []string {
	all := make([]string, len(known))
	for i, f := range known {
		all[i] = f.name
	}
	return all
}
