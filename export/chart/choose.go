package chart

import (
	"fmt"
	"slices"
	"strings"

	"tieover/score"
)

// choose finds the layers named in every section. A name that no section has
// is an error that lists the names there are.
func choose(p *score.Piece, names []string) ([][]int, error) {
	chosen := make([][]int, len(p.Sections))
	if len(names) == 0 {
		return chosen, nil
	}
	found := map[string]bool{}
	var all []string
	for i, s := range p.Sections {
		chosen[i] = []int{}
		for j, l := range s.Layers {
			if !slices.Contains(all, l.Name) {
				all = append(all, l.Name)
			}
			if slices.Contains(names, l.Name) {
				found[l.Name] = true
				chosen[i] = append(chosen[i], j)
			}
		}
	}
	for _, n := range names {
		if !found[n] {
			return nil, fmt.Errorf("no layer is named %q; the layers are %s", n, strings.Join(all, ", "))
		}
	}
	return chosen, nil
}

// ordered puts chosen layers, all when nil, into an order.
func ordered(chosen, order []int) []int {
	return slices.DeleteFunc(slices.Clone(order), func(i int) bool { return chosen != nil && !slices.Contains(chosen, i) })
}
