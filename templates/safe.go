package templates

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"
	"text/template"
	"text/template/parse"
	"time"
)

// Bounds of a replaceable template.
const (
	largestFile   = 256 << 10       // bytes of template text
	largestText   = 64 << 10        // bytes that one function may make
	largestOutput = 16 << 20        // bytes that one run may write
	longestRun    = 5 * time.Second // of one run
	deepestRange  = 4               // ranges inside ranges
	widestPrintf  = 1000            // of a width or precision in printf
)

// Text is a template that cannot read files or run programs, and whose run is
// bounded in output, in memory and in time.
type Text struct{ t *template.Template }

// Parse reads a template. name stands in its errors, which give the line. It
// must define every one of the names in blocks. model is a value of the type
// that runs will be given: range may only go over lists that it or its parts
// have as fields, no template may call itself, directly or through others.
func Parse(name, text string, model any, blocks ...string) (*Text, error) {
	if len(text) > largestFile {
		return nil, fmt.Errorf("%s: a template may have %d bytes, this has %d", name, largestFile, len(text))
	}
	t, err := template.New(name).Funcs(bounded).Parse(text)
	if err != nil {
		return nil, plainError(err)
	}
	w := walker{name: name, lists: map[string]bool{}, calls: map[string][]string{}}
	w.listsOf(reflect.TypeOf(model), map[reflect.Type]bool{})
	for _, each := range t.Templates() {
		if each.Tree != nil {
			w.from, w.tree = each.Name(), each.Tree
			w.node(each.Root, 0)
		}
	}
	if w.err == nil {
		w.err = w.recursion()
	}
	if w.err != nil {
		return nil, w.err
	}
	for _, b := range blocks {
		if t.Lookup(b) == nil {
			return nil, fmt.Errorf(`%s: the template must define %q: {{define %q}} ... {{end}}`, name, b, b)
		}
	}
	return &Text{t}, nil
}

// Run writes one of the template's blocks. Nothing is written unless the whole
// run succeeds. A run that takes too long is given up and left behind, so the
// program should end soon after.
func (t *Text) Run(w io.Writer, block string, data any) error {
	var out limited
	result := make(chan error, 1)
	go func() { result <- t.t.ExecuteTemplate(&out, block, data) }()
	select {
	case err := <-result:
		if err != nil {
			return plainError(err)
		}
	case <-time.After(longestRun):
		return fmt.Errorf("%s: the template runs longer than %v", t.t.Name(), longestRun)
	}
	_, err := w.Write(out.Bytes())
	return err
}

// limited refuses more than largestOutput bytes.
type limited struct{ bytes.Buffer }

func (l *limited) Write(p []byte) (int, error) {
	if l.Len()+len(p) > largestOutput {
		return 0, fmt.Errorf("the template writes more than %d bytes", largestOutput)
	}
	return l.Buffer.Write(p)
}

// plainError drops the library's own word before the place.
func plainError(err error) error {
	text := err.Error()
	text = strings.TrimPrefix(text, "template: ")
	return errors.New(text)
}

// bounded replaces the functions that can make text out of nothing.
var bounded = template.FuncMap{
	"print":    func(args ...any) (string, error) { return small(args, fmt.Sprint) },
	"println":  func(args ...any) (string, error) { return small(args, fmt.Sprintln) },
	"printf":   printf,
	"html":     func(args ...any) (string, error) { return small(args, template.HTMLEscaper) },
	"js":       func(args ...any) (string, error) { return small(args, template.JSEscaper) },
	"urlquery": func(args ...any) (string, error) { return small(args, template.URLQueryEscaper) },
}

// small calls f if neither what goes in nor what comes out is too long.
func small(args []any, f func(...any) string) (string, error) {
	in := 0
	for _, a := range args {
		if s, ok := a.(string); ok {
			in += len(s)
		}
	}
	if in > largestText {
		return "", tooLong
	}
	out := f(args...)
	if len(out) > largestText {
		return "", tooLong
	}
	return out, nil
}

var tooLong = fmt.Errorf("more than %d bytes in one text", largestText)

// printf is fmt.Sprintf with plain widths only.
func printf(format string, args ...any) (string, error) {
	number := 0
	inVerb := false
	for _, r := range format {
		switch {
		case r == '%':
			inVerb, number = !inVerb, 0
		case inVerb && r == '*':
			return "", errors.New("printf: * is not allowed; write the width")
		case inVerb && r >= '0' && r <= '9':
			if number = number*10 + int(r-'0'); number > widestPrintf {
				return "", fmt.Errorf("printf: a width over %d", widestPrintf)
			}
		case inVerb && (r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'):
			inVerb = false
		default:
			number = 0
		}
	}
	if strings.Count(format, "%") > widestPrintf/10 {
		return "", errors.New("printf: too many verbs")
	}
	return small(append([]any{format}, args...), func(all ...any) string {
		return fmt.Sprintf(all[0].(string), all[1:]...)
	})
}

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
