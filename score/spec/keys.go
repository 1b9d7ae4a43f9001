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

// The fields below have a value of one kind, which goes where to points.

func textField[T any](name string, to func(*T) *string) field[T] {
	return field[T]{name, func(r *reader, n *yaml.Node, t *T) {
		if s, ok := r.name(n, name); ok {
			*to(t) = s
		}
	}}
}

func yesField[T any](name string, to func(*T) *bool) field[T] {
	return field[T]{name, func(r *reader, n *yaml.Node, t *T) { *to(t), _ = r.yes(n, name) }}
}

// numberField is a whole number from low to high.
func numberField[T any, N int | int64](name string, low, high int64, to func(*T) *N) field[T] {
	return field[T]{name, func(r *reader, n *yaml.Node, t *T) {
		if x, ok := r.number(n, name, low, high); ok {
			*to(t) = N(x)
		}
	}}
}

// wordField is one of some words.
func wordField[T any](name string, words []string, to func(*T) *string) field[T] {
	return field[T]{name, func(r *reader, n *yaml.Node, t *T) {
		if i, ok := r.choice(n, name, words); ok {
			*to(t) = words[i]
		}
	}}
}

// optional is a value that was read, nil where it could not be.
func optional[V any](v V, ok bool) *V {
	if !ok {
		return nil
	}
	return &v
}

// choiceField is one of some words, which are in the order of the values of V.
func choiceField[T any, V ~int](name string, words []string, to func(*T) *V) field[T] {
	return field[T]{name, func(r *reader, n *yaml.Node, t *T) {
		if i, ok := r.choice(n, name, words); ok {
			*to(t) = V(i)
		}
	}}
}

// nodes holds the value nodes of a map by key. A key without a value, and what an
// unknown key was perhaps meant to be, has a ? before it; a ? alone is a key that
// could be anything.
type nodes map[string]*yaml.Node

// has reports whether a key is there, if only without a value or by another name.
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
		if kind, _, _ := strings.Cut(n.Value, " "); slices.Contains(processNames(), kind) {
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
			meant, sure := r.reportUnknown(key, value, what, names, flow)
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
		if isNull(value) {
			found["?"+name] = value
			r.wrong(r.at(key), "give it one, or remove the key", "%q has no value", name)
			continue
		}
		found[name] = value
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
