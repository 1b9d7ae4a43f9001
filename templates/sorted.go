package templates

import (
	"maps"
	"slices"
)

// sorted returns the keys of a map in order, so that errors do not change from
// run to run.
func sorted[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
