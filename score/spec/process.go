package spec

import (
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/process"
	"tieover/score/spec/grammar"
)

// processKind is a kind of process as an entry of `process:` names it.
type processKind struct {
	name  string
	kind  process.Kind
	keys  []field[change]
	needs []string // keys that must not be left out
}

func processKinds() []processKind {
	return []processKind{
		{"grow", process.Grow, growKeys(), []string{"group", "from"}},
		{"rotate", process.Rotate, turnKeys(), nil},
		{"shift", process.Shift, turnKeys(), nil},
		{"retrograde", process.Retrograde, []field[change]{{"on", readOn}}, nil},
		{"append", process.Append, appendKeys(), []string{"size"}},
	}
}

func processNames() (all []string) {
	for _, k := range processKinds() {
		all = append(all, k.name)
	}
	return all
}

func untilWords() []string { return []string{"never", "realignment"} }

// change is one entry of `process:` while it is read.
type change struct {
	score.Process
	until score.Until
}

func processKeys() (all []field[change]) {
	for _, name := range processNames() {
		all = append(all, field[change]{name, nil})
	}
	return append(all, choiceField("until", untilWords(), func(c *change) *score.Until { return &c.until }))
}

const (
	maxBy    = 4096
	maxAfter = 1_000_000
)

func afterField() field[change] {
	return numberField("after", 1, maxAfter, func(c *change) *int { return &c.After })
}

func byField() field[change] {
	return field[change]{"by", func(r *reader, n *yaml.Node, c *change) {
		x, ok := r.number(n, "by", -maxBy, maxBy)
		if ok && x == 0 {
			r.wrong(r.at(n), "write 1 or more, or a negative number", "by 0 changes nothing")
		} else if ok {
			c.By = x
		}
	}}
}

func growKeys() []field[change] {
	return []field[change]{
		numberField("group", 1, grammar.MaxGroups, func(c *change) *int { return &c.Group }),
		byField(),
		{"from", func(r *reader, n *yaml.Node, c *change) {
			s, ok := r.text(n, "from")
			if !ok || s == "none" {
				return
			}
			if _, ok := grammar.Whole(s); !ok {
				r.wrong(r.at(n), "write the number of the group that gives, or none", "from cannot be %q", grammar.Shortened(s))
			} else if x, ok := r.number(n, "from", 1, grammar.MaxGroups); ok {
				c.From = int(x)
			}
		}},
		afterField(),
		yesField("stop-when-empty", func(c *change) *bool { return &c.Hold }),
	}
}

func turnKeys() []field[change] { return []field[change]{byField(), afterField()} }

func appendKeys() []field[change] {
	return []field[change]{
		numberField("size", 1, grammar.MaxPulses, func(c *change) *int { return &c.Size }),
		afterField(),
	}
}

// readOn reads "even" or "every 3rd".
func readOn(r *reader, n *yaml.Node, c *change) {
	s, ok := r.text(n, "on")
	if !ok {
		return
	}
	if s == "even" {
		c.After = 2
		return
	}
	f := strings.Fields(s)
	if len(f) == 2 && f[0] == "every" {
		digits := strings.TrimRight(f[1], "stndrh")
		if x, ok := grammar.Whole(digits); ok && x >= 1 && x <= maxAfter {
			c.After = int(x)
			return
		}
	}
	r.wrong(r.at(n), "write even, or every 3rd", "retrograde cannot come on %q", grammar.Shortened(s))
}

// readProcess reads the processes of a layer, one map or a list of them.
func (r *reader) readProcess(v *voice) {
	n := v.keys["process"]
	if n == nil || v.keys["line"] != nil || !r.notEmpty(n, "process") {
		return
	}
	until := map[score.Until]bool{}
	for _, item := range items(n) {
		c := change{Process: score.Process{Pos: r.at(item), Rule: process.Rule{By: 1, After: 1}}}
		found, ok := readMap(r, item, "a process", processKeys(), &c)
		if !ok {
			continue
		}
		until[c.until] = true
		v.Until = c.until
		if r.readKind(item, found, &c) {
			r.checkProcess(v, &c.Process)
			v.Process = append(v.Process, c.Process)
		}
	}
	if len(until) > 1 {
		r.wrong(r.at(n), "write the same until: in each process", "the processes of a layer are reset together")
	}
}

// readKind reads the one kind of process that an entry has.
func (r *reader) readKind(item *yaml.Node, found nodes, c *change) bool {
	kinds := slices.DeleteFunc(processKinds(), func(k processKind) bool { return found[k.name] == nil })
	switch {
	case len(kinds) > 1:
		r.wrong(r.at(item), "use a list: the order matters", "two kinds of process in one entry: %s and %s", kinds[0].name, kinds[1].name)
		return false
	case len(kinds) == 0:
		if !slices.ContainsFunc(processNames(), func(name string) bool { return !found.lacks(name) }) {
			r.wrong(r.at(item), "write "+beat.Listed(processNames(), "or")+", as in {shift: {by: 1}}", "a process does not say what changes")
		}
		return false
	}
	k, before := kinds[0], len(r.problems)
	if c.Kind = k.kind; c.Kind == process.Retrograde {
		c.After = 2
	}
	n := found[k.name]
	keys, _ := readMap(r, n, k.name, k.keys, c)
	for _, key := range k.needs {
		r.require(n, keys, k.name, key)
	}
	if c.From == c.Group && c.From > 0 {
		r.wrong(r.at(keys["from"]), "name another group, or none", "group %d cannot take from itself", c.Group)
	}
	return len(r.problems) == before
}

// require reports a key that must not be left out.
func (r *reader) require(n *yaml.Node, keys nodes, what, key string) {
	if keys != nil && keys.lacks(key) {
		hint := "add " + key + ":"
		if key == "from" {
			hint = "add from: and the group that gives, or from: none for a cycle that gets longer"
		}
		r.wrong(r.at(n), hint, "%s does not say its %s", what, key)
	}
}

// checkProcess holds a process to the cycles it works on.
func (r *reader) checkProcess(v *voice, p *score.Process) {
	for _, pattern := range v.Patterns {
		if pattern.Box != nil && (p.Kind == process.Grow || p.Kind == process.Append) {
			r.wrong(p.Pos, "write the cycle as groups and figures", "a box cannot grow")
			return
		}
		n := len(pattern.Groups)
		if n == 0 || p.Kind != process.Grow {
			continue
		}
		if p.Group > n || p.From > n {
			r.wrong(p.Pos, "count the groups of the cycle from 1", "there is no group %d in a cycle of %d", max(p.Group, p.From), n)
			return
		}
	}
}
