package facts

import (
	"iter"
	"slices"
)

// field is one key of an object of the JSON: what it means, and its value.
type field struct {
	key, means string
	value      any
}

// An object is written on one line, a block with each field on a line of its own.
type (
	object []field
	block  []field
)

// join puts fields one after another.
func join(parts ...object) object { return slices.Concat(parts...) }

// absent as a value leaves its key out.
type absent struct{}

// unless leaves a key out under a condition.
func unless(out bool, v any) any {
	if out {
		return absent{}
	}
	return v
}

// nullIf writes null under a condition.
func nullIf(unknown bool, v any) any {
	if unknown {
		return nil
	}
	return v
}

// known leaves a key out where a pointer is nil.
func known[T any](v *T) any { return unless(v == nil, v) }

// list is written while it is walked, each element on a line of its own.
type list iter.Seq[any]

// listOf is a list of what element makes of each of a sequence.
func listOf[T, E any](all iter.Seq[T], element func(T) E) list {
	return func(yield func(any) bool) {
		for v := range all {
			if !yield(element(v)) {
				return
			}
		}
	}
}

// lines is a list of what element makes of each of a slice.
func lines[T, E any](all []T, element func(T) E) list {
	return listOf(slices.Values(all), element)
}

// inLine is such a list on one line.
func inLine[T any](all []T, element func(T) object) []object {
	objects := make([]object, len(all))
	for i, v := range all {
		objects[i] = element(v)
	}
	return objects
}
