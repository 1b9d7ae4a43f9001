package report

import (
	"iter"
	"slices"
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
	return linesOf(j, table, slices.Values(all))
}

func linesOf[T any](j *facts, table []field[T], all iter.Seq[T]) each {
	return listed(all, func(v T) any { return line(j, table, v) })
}

// listed is a list of what element makes of each of them.
func listed[T any](all iter.Seq[T], element func(T) any) each {
	return func(yield func(any) bool) {
		for v := range all {
			if !yield(element(v)) {
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
