package spec

import (
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score"
)

// readRhythm reads what a layer plays: groups, a box (perhaps with groups for
// the beaming) or a free line.
func (r *reader) readRhythm(v *voice) {
	groups, box, line := v.keys["groups"], v.keys["box"], v.keys["line"]
	if line != nil {
		r.readLine(line, v)
		return
	}
	if !v.keys.has("groups") && !v.keys.has("box") && !v.keys.has("line") {
		r.wrong(v.Pos, "write groups: 3+2+2, box: x..x.x. or line:", "%s has no rhythm", v.byName())
	}
	v.Patterns = r.patterns(groups, box)
	r.readFigures(v)
	r.readSyllables(v)
}

// patterns reads lists of groups and boxes that are taken in turn.
func (r *reader) patterns(groups, box *yaml.Node) []score.Pattern {
	var all []score.Pattern
	switch {
	case box != nil && !isNull(box):
		all = r.boxes(box)
	case groups == nil || isNull(groups):
		return nil
	}
	if groups == nil || isNull(groups) || !r.notEmpty(groups, "groups") {
		return all
	}
	if box == nil && allNumbers(groups) {
		return r.bareList(groups)
	}
	list := items(groups)
	if box != nil && len(list) != len(items(box)) {
		r.wrong(r.at(groups), "write one list of groups for each box", "groups has %d cycles and box has %d", len(list), len(items(box)))
		return all
	}
	for i, n := range list {
		s, ok := r.text(n, "groups")
		if !ok {
			continue
		}
		cycle, bad := parseGroups(s)
		if bad != nil {
			r.slip(n, bad)
			continue
		}
		if box == nil {
			all = append(all, score.Pattern{Pos: r.at(n), Groups: cycle})
		} else if i < len(all) && all[i].Box != nil {
			r.fit(n, cycle, &all[i])
		}
	}
	return all
}

// fit puts stated groups to a box.
func (r *reader) fit(n *yaml.Node, cycle []score.Item, p *score.Pattern) {
	if sum := pulses(cycle); sum != len(p.Box) {
		r.wrong(r.at(n), "let the groups add up to the signs of the box", "the groups have %d pulses and the box has %d", sum, len(p.Box))
		return
	}
	p.Groups = cycle
}

func pulses(cycle []score.Item) int {
	sum := 0
	for _, i := range cycle {
		sum += i.Size
	}
	return sum
}

func (r *reader) boxes(box *yaml.Node) []score.Pattern {
	if !r.notEmpty(box, "box") {
		return nil
	}
	var all []score.Pattern
	for _, n := range items(box) {
		p := score.Pattern{Pos: r.at(n)}
		if s, ok := r.text(n, "box"); ok {
			signs, bad := parseBox(s)
			if bad != nil {
				r.slip(n, bad)
			} else {
				p.Box, p.Groups = signs, boxGroups(signs)
				if signs[0] == score.SignHold {
					r.warn(r.at(n), "begin the box with x or . if that is not meant",
						"the box begins with a hold, which is silent in the first cycle and after a cut")
				}
			}
		}
		all = append(all, p)
	}
	return all
}

// allNumbers reports a list such as [3, 2, 2].
func allNumbers(n *yaml.Node) bool {
	if n.Kind != yaml.SequenceNode || len(n.Content) < 2 {
		return false
	}
	for _, item := range n.Content {
		if _, ok := whole(item.Value); !ok || item.Kind != yaml.ScalarNode {
			return false
		}
	}
	return true
}

func (r *reader) bareList(n *yaml.Node) []score.Pattern {
	var sizes []string
	for _, item := range n.Content {
		sizes = append(sizes, item.Value)
	}
	r.wrong(r.at(n), "write "+short(strings.Join(sizes, "+"))+" for one cycle; for cycles of a single group, taken in turn, write "+sizes[0]+"x1",
		"a list of bare numbers: a list is taken in turn, one entry a cycle")
	return nil
}

// readFigures reads the exact rhythm inside groups, by size.
func (r *reader) readFigures(v *voice) {
	n := v.keys["figures"]
	if n == nil || isNull(n) {
		return
	}
	v.Figures = map[int][]score.Sign{}
	r.bySize(n, "figures", func(size int, value *yaml.Node) {
		s, ok := r.text(value, "a figure")
		if !ok {
			return
		}
		signs, bad := parseFigure(s, size)
		if bad != nil {
			r.slip(value, bad)
			return
		}
		v.Figures[size] = signs
		v.section.need(r, value, "", step(v.Pulse, len(signs)/size))
		r.checkUsed(v, value, "a figure", size)
	})
}

// readSyllables reads words to speak, by group size.
func (r *reader) readSyllables(v *voice) {
	n := v.keys["syllables"]
	if n == nil || isNull(n) {
		return
	}
	v.Syllables = map[int]string{}
	r.bySize(n, "syllables", func(size int, value *yaml.Node) {
		s, ok := r.name(value, "syllables")
		if !ok {
			return
		}
		if got := len(strings.Fields(s)); got != size {
			r.wrong(r.at(value), "write one a pulse, separated by blanks", "%d syllables for a group of %d", got, size)
			return
		}
		v.Syllables[size] = strings.Join(strings.Fields(s), " ")
	})
}

// bySize reads a map whose keys are group sizes.
func (r *reader) bySize(n *yaml.Node, what string, read func(size int, value *yaml.Node)) {
	if n.Kind != yaml.MappingNode {
		r.wrong(r.at(n), "write sizes and values, as in {3: x.x}", "%s must be a map", what)
		return
	}
	seen := map[string]bool{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		size, ok := whole(key.Value)
		switch {
		case key.Kind == yaml.ScalarNode && strings.Contains(key.Value, ":") && isNull(value):
			r.wrong(r.at(key), "write {3: x.x}", "a space is missing after the colon of %q", short(key.Value))
		case !ok || size == 0 || size > MaxPulses:
			r.wrong(r.at(key), "write a group size from 1 to "+strconv.Itoa(MaxPulses), "%q is no group size in %s", short(key.Value), what)
		case seen[key.Value]:
			r.wrong(r.at(key), "keep one of them", "size %d stands twice in %s", size, what)
		case isNull(value):
			r.wrong(r.at(key), "write {"+key.Value+": …}", "size %d has no value in %s", size, what)
		default:
			seen[key.Value] = true
			read(int(size), value)
		}
	}
}

// checkUsed warns of a size that no group has and no process can make.
func (r *reader) checkUsed(v *voice, n *yaml.Node, what string, size int) {
	if v.keys["process"] != nil || v.keys["except"] != nil {
		return
	}
	for _, p := range v.Patterns {
		for _, i := range p.Groups {
			if i.Size == size {
				return
			}
		}
	}
	r.warn(r.at(n), "check the size", "%s for groups of %d, but the layer has none", what, size)
}
