package spec

import (
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/spec/grammar"
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
	case box != nil:
		all = r.boxes(box)
	case groups == nil:
		return nil
	}
	if groups == nil || !r.notEmpty(groups, "groups") {
		return all
	}
	if box == nil && allNumbers(groups) {
		return r.bareList(groups)
	}
	list := items(groups)
	r.checkCommas(list)
	if box != nil && len(list) != len(items(box)) {
		r.wrong(r.at(groups), "write one list of groups for each box", "groups has %s and box has %d", beat.Counted(len(list), "cycle"), len(items(box)))
		return all
	}
	for i, n := range list {
		cycle, ok := parseText(r, n, "groups", grammar.Groups)
		if !ok {
			continue
		}
		if box == nil {
			r.checkSizes(n, cycle)
			all = append(all, score.Pattern{Groups: cycle})
		} else if i < len(all) && all[i].Box != nil {
			r.fit(n, cycle, &all[i])
		}
	}
	return all
}

// checkSizes warns of a size that is rather several without their +.
func (r *reader) checkSizes(n *yaml.Node, cycle []score.Item) {
	for _, i := range cycle {
		digits := strconv.Itoa(i.Size)
		if len(digits) > 2 && !strings.Contains(digits, "0") {
			r.warn(r.at(n), "write "+strings.Join(strings.Split(digits, ""), "+")+" if these are several groups", "a group of %d pulses", i.Size)
			return
		}
	}
}

// fit puts stated groups to a box.
func (r *reader) fit(n *yaml.Node, cycle []score.Item, p *score.Pattern) {
	if sum := score.CountPulses(cycle); sum != len(p.Box) {
		r.wrong(r.at(n), "let the groups add up to the signs of the box", "the groups have %d pulses and the box has %d", sum, len(p.Box))
		return
	}
	p.Groups = cycle
}

func (r *reader) boxes(box *yaml.Node) []score.Pattern {
	if !r.notEmpty(box, "box") {
		return nil
	}
	var all []score.Pattern
	for _, n := range items(box) {
		p := score.Pattern{}
		if signs, ok := parseText(r, n, "box", grammar.Box); ok {
			p.Box, p.Groups = signs, grammar.BoxGroups(signs)
			if signs[0] == score.SignHold {
				r.warn(r.at(n), "begin the box with x or . if that is not meant",
					"the box begins with a hold, which is silent in the first cycle and after a cut")
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
	return !slices.ContainsFunc(n.Content, func(item *yaml.Node) bool { return !isNumber(item) })
}

func isNumber(n *yaml.Node) bool {
	_, ok := grammar.Whole(n.Value)
	return ok && n.Kind == yaml.ScalarNode
}

// checkCommas warns of bare numbers side by side in a list of cycles: in
// [3+3+2, 3,3,2] each comma begins another cycle.
func (r *reader) checkCommas(list []*yaml.Node) {
	for i := 1; i < len(list); i++ {
		if isNumber(list[i-1]) && isNumber(list[i]) {
			r.warn(r.at(list[i-1]), "join the groups of one cycle by +, if that is meant", "the cycles %s and %s of one group each", grammar.Shortened(list[i-1].Value), grammar.Shortened(list[i].Value))
			return
		}
	}
}

func (r *reader) bareList(n *yaml.Node) []score.Pattern {
	var sizes []string
	for _, item := range n.Content {
		sizes = append(sizes, item.Value)
	}
	r.wrong(r.at(n), "write "+grammar.Shortened(strings.Join(sizes, "+"))+" for one cycle; for cycles of a single group, taken in turn, write "+sizes[0]+"x1",
		"a list of bare numbers: a list is taken in turn, one entry a cycle")
	return nil
}

// readFigures reads the exact rhythm inside groups, by size.
func (r *reader) readFigures(v *voice) {
	n := v.keys["figures"]
	if n == nil {
		return
	}
	v.Figures = map[int][]score.Sign{}
	r.bySize(n, "figures", func(size int, value *yaml.Node) {
		signs, ok := parseText(r, value, "a figure", func(s string) ([]score.Sign, *grammar.Slip) { return grammar.Figure(s, size) })
		if !ok {
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
	if n == nil {
		return
	}
	v.Syllables = map[int]string{}
	r.bySize(n, "syllables", func(size int, value *yaml.Node) {
		s, ok := r.name(value, "syllables")
		if !ok {
			return
		}
		if got := len(strings.Fields(s)); got != size {
			r.wrong(r.at(value), "write one a pulse, separated by blanks", "%s for a group of %d", beat.Counted(got, "syllable"), size)
			return
		}
		v.Syllables[size] = strings.Join(strings.Fields(s), " ")
		r.checkUsed(v, value, "syllables", size)
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
		size, ok := grammar.Whole(key.Value)
		switch {
		case key.Kind == yaml.ScalarNode && strings.Contains(key.Value, ":") && isNull(value):
			r.wrong(r.at(key), "write {3: x.x}", "a space is missing after the colon of %q", grammar.Shortened(key.Value))
		case !ok || size == 0 || size > grammar.MaxPulses:
			r.wrong(r.at(key), "write a group size from 1 to "+strconv.Itoa(grammar.MaxPulses), "%q is no group size in %s", grammar.Shortened(key.Value), what)
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
