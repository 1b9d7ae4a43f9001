package templates

import (
	"errors"
	"fmt"
	"reflect"
	"strings"
	"text/template"
	"text/template/parse"
)

// checkFields looks for names of fields that a block's model does not have,
// also in branches that a run may never take. It follows the dot through range,
// with and calls; where it cannot tell what a value is, the run will.
func checkFields(t *template.Template, b Block) error {
	c := fieldChecker{all: t, seen: map[call]bool{}}
	c.template(b.Name, reflect.TypeOf(b.Given))
	return c.err
}

type fieldChecker struct {
	all  *template.Template
	tree *parse.Tree
	seen map[call]bool
	err  error
}

// call is a template with the type that it is given; nil: unknown.
type call struct {
	name string
	dot  reflect.Type
}

// scope is what the dot and the variables are at a place in a template; nil
// stands for a value of unknown type.
type scope struct {
	dot  reflect.Type
	vars *variable // the last one declared
}

// variable is one variable, and those declared before it.
type variable struct {
	name  string
	is    reflect.Type
	outer *variable
}

// inner is the scope of a branch: what it declares ends with it, what it gives
// to variables from outside does not.
func (s *scope) inner(dot reflect.Type) *scope { return &scope{dot, s.vars} }

func (s *scope) declare(name string, is reflect.Type) { s.vars = &variable{name, is, s.vars} }

// variable finds the one that a name means. The parser lets a name be given a
// value that was never declared, which only fails when it is run.
func (s *scope) variable(name string) *variable {
	for v := s.vars; v != nil; v = v.outer {
		if v.name == name {
			return v
		}
	}
	return &variable{name: name}
}

func (c *fieldChecker) template(name string, dot reflect.Type) {
	t := c.all.Lookup(name)
	if t == nil || t.Tree == nil || c.seen[call{name, dot}] {
		return
	}
	c.seen[call{name, dot}] = true
	outer := c.tree
	c.tree = t.Tree
	whole := &scope{dot: dot}
	whole.declare("$", dot)
	c.node(t.Root, whole)
	c.tree = outer
}

func (c *fieldChecker) node(n parse.Node, s *scope) {
	switch n := n.(type) {
	case *parse.ListNode:
		if n != nil {
			for _, each := range n.Nodes {
				c.node(each, s)
			}
		}
	case *parse.ActionNode:
		c.pipe(n.Pipe, s)
	case *parse.IfNode:
		inner := s.inner(s.dot)
		c.pipe(n.Pipe, inner)
		c.node(n.List, inner)
		c.node(n.ElseList, inner)
	case *parse.WithNode:
		inner := s.inner(s.dot)
		t := c.pipe(n.Pipe, inner)
		c.node(n.List, inner.inner(t))
		c.node(n.ElseList, inner)
	case *parse.RangeNode:
		c.each(n, s)
	case *parse.TemplateNode:
		var dot reflect.Type
		if n.Pipe != nil {
			dot = c.pipe(n.Pipe, s)
		}
		c.template(n.Name, dot)
	}
}

// each checks a range: its variables are the number and the item of a list.
func (c *fieldChecker) each(n *parse.RangeNode, s *scope) {
	inner := s.inner(s.dot)
	list := c.pipe(n.Pipe, inner)
	if list == nil {
		return // other rules refuse what is no list
	}
	if list.Kind() != reflect.Slice {
		c.fail(n, "range may only go over a list; %s is none", n.Pipe)
		return
	}
	inner.dot = list.Elem()
	for i, v := range n.Pipe.Decl {
		if i == len(n.Pipe.Decl)-1 {
			inner.declare(v.Ident[0], list.Elem())
		} else {
			inner.declare(v.Ident[0], nil)
		}
	}
	c.node(n.List, inner)
	empty := s.inner(s.dot) // without items the variables hold something else
	for _, v := range n.Pipe.Decl {
		empty.declare(v.Ident[0], nil)
	}
	c.node(n.ElseList, empty)
}

// pipe checks everything in a pipeline, sets the variables that it declares,
// and returns its type if that is plain to see.
func (c *fieldChecker) pipe(p *parse.PipeNode, s *scope) reflect.Type {
	var t reflect.Type
	for _, cmd := range p.Cmds {
		t = nil
		for _, arg := range cmd.Args {
			t = c.value(arg, s)
		}
		if len(cmd.Args) != 1 {
			t = nil // a function's result
		}
	}
	if len(p.Cmds) != 1 {
		t = nil
	}
	for _, v := range p.Decl {
		if p.IsAssign {
			s.variable(v.Ident[0]).is = nil
		} else {
			s.declare(v.Ident[0], t)
		}
	}
	return t
}

// value checks one operand and returns its type, nil if unknown.
func (c *fieldChecker) value(n parse.Node, s *scope) reflect.Type {
	switch n := n.(type) {
	case *parse.DotNode:
		return s.dot
	case *parse.FieldNode:
		return c.fields(n, s.dot, n.Ident)
	case *parse.VariableNode:
		return c.fields(n, s.variable(n.Ident[0]).is, n.Ident[1:])
	case *parse.ChainNode:
		return c.fields(n, c.value(n.Node, s), n.Field)
	case *parse.PipeNode:
		return c.pipe(n, s)
	}
	return nil
}

// fields follows names from a value of type t.
func (c *fieldChecker) fields(n parse.Node, t reflect.Type, names []string) reflect.Type {
	for _, name := range names {
		for t != nil && t.Kind() == reflect.Pointer {
			t = t.Elem()
		}
		if t == nil {
			return nil
		}
		if t.Kind() != reflect.Struct {
			c.fail(n, "there is no .%s: what stands before it has no fields", name)
			return nil
		}
		f, ok := t.FieldByName(name)
		if !ok {
			c.fail(n, "there is no .%s here; the fields are %s", name, fieldNames(t))
			return nil
		}
		t = f.Type
	}
	return t
}

func fieldNames(t reflect.Type) string {
	var names []string
	for i := range t.NumField() {
		names = append(names, "."+t.Field(i).Name)
	}
	return strings.Join(names, " ")
}

func (c *fieldChecker) fail(n parse.Node, format string, args ...any) {
	if c.err == nil {
		where, _ := c.tree.ErrorContext(n)
		c.err = plainError(errors.New(where + ": " + fmt.Sprintf(format, args...)))
	}
}
