package score

import (
	"slices"

	"tieover/score/process"
)

// newState returns what processes make of the layer's patterns, in its first
// cycle.
func (l *Layer) newState() *process.State {
	rules := make([]process.Rule, len(l.Process))
	for i, p := range l.Process {
		rules[i] = p.Rule
	}
	patterns := make([][]process.Group, len(l.Patterns))
	for i := range l.Patterns {
		patterns[i] = l.Patterns[i].groups()
	}
	return process.New(patterns, rules)
}

// groups lists the groups as they are written.
func (p *Pattern) groups() []process.Group {
	groups := make([]process.Group, len(p.Groups))
	for i, item := range p.Groups {
		groups[i] = process.Group{Size: item.Size, Spec: i + 1, Blank: item.Blank}
	}
	return groups
}

// shape is the cycle of a pattern as it is written.
func (p *Pattern) shape() process.Shape { return process.Plain(p.groups()) }

// resizes reports whether processes change sizes, so that passes matter.
func (l *Layer) resizes() bool {
	return slices.ContainsFunc(l.Process, func(p Process) bool { return p.Kind == process.Grow || p.Kind == process.Append })
}
