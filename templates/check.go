package templates

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"text/template/parse"
)

// walker checks the parse trees.
type walker struct {
	name  string
	lists map[string]bool // fields of the model that are lists
	from  string
	tree  *parse.Tree
	calls map[string][]string // who calls whom
	err   error
}

// listsOf collects the names of all list fields of a type and its parts.
func (w *walker) listsOf(t reflect.Type, seen map[reflect.Type]bool) {
	for t != nil && (t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice) {
		t = t.Elem()
	}
	if t == nil || t.Kind() != reflect.Struct || seen[t] {
		return
	}
	seen[t] = true
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Type.Kind() == reflect.Slice {
			w.lists[f.Name] = true
		}
		w.listsOf(f.Type, seen)
	}
}

func (w *walker) fail(n parse.Node, format string, args ...any) {
	if w.err == nil {
		where, _ := w.tree.ErrorContext(n)
		w.err = fmt.Errorf("%s: %s", where, fmt.Sprintf(format, args...))
	}
}

// node walks the parts of a tree that can repeat or call.
func (w *walker) node(n parse.Node, depth int) {
	switch n := n.(type) {
	case *parse.ListNode:
		if n != nil {
			for _, each := range n.Nodes {
				w.node(each, depth)
			}
		}
	case *parse.IfNode:
		w.branch(&n.BranchNode, depth)
	case *parse.WithNode:
		w.branch(&n.BranchNode, depth)
	case *parse.RangeNode:
		w.rangesOver(n)
		if depth+1 > deepestRange {
			w.fail(n, "range inside range more than %d deep", deepestRange)
		}
		w.branch(&n.BranchNode, depth+1)
	case *parse.TemplateNode:
		w.calls[w.from] = append(w.calls[w.from], n.Name)
	}
}

func (w *walker) branch(b *parse.BranchNode, depth int) {
	w.node(b.List, depth)
	w.node(b.ElseList, depth)
}

// rangesOver checks that a range goes over a list of the model.
func (w *walker) rangesOver(n *parse.RangeNode) {
	var field string
	if len(n.Pipe.Cmds) == 1 && len(n.Pipe.Cmds[0].Args) == 1 {
		switch arg := n.Pipe.Cmds[0].Args[0].(type) {
		case *parse.FieldNode:
			field = arg.Ident[len(arg.Ident)-1]
		case *parse.VariableNode:
			if len(arg.Ident) > 1 {
				field = arg.Ident[len(arg.Ident)-1]
			}
		}
	}
	if !w.lists[field] {
		w.fail(n, "range may only go over a list of the model, as in {{range .%s}}, not over %s", w.example(), n.Pipe)
	}
}

// example names one list of the model, the first in the alphabet.
func (w *walker) example() string {
	first := ""
	for name := range w.lists {
		if first == "" || name < first {
			first = name
		}
	}
	return first
}

// recursion looks for a template that comes back to itself.
func (w *walker) recursion() error {
	const open, closed = 1, 2
	state := map[string]int{}
	var visit func(string) error
	visit = func(name string) error {
		state[name] = open
		for _, to := range w.calls[name] {
			if state[to] == open {
				return fmt.Errorf("%s: template %q calls itself", w.name, to)
			}
			if state[to] != closed {
				if err := visit(to); err != nil {
					return err
				}
			}
		}
		state[name] = closed
		return nil
	}
	for _, name := range sorted(w.calls) {
		if state[name] == 0 {
			if err := visit(name); err != nil {
				return err
			}
		}
	}
	return nil
}

// sorted returns the keys of a map in order, so that errors do not change from
// run to run.
func sorted[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
