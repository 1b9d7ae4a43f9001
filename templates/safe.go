package templates

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"
	"text/template"
	"time"
)

// Bounds of a replaceable template.
const (
	largestFile   = 256 << 10       // bytes of template text
	largestText   = 64 << 10        // bytes that one function may make
	largestOutput = 16 << 20        // bytes that one run may write
	largestWork   = 64 << 20        // bytes that all functions of one run may make together
	longestRun    = 5 * time.Second // of one run
	deepestRange  = 4               // ranges inside ranges
	widestPrintf  = 1000            // of a width or precision in printf
	mostValues    = 100             // given to one call of a function
)

// Text is a template that cannot read files or run programs, and whose run is
// bounded in output, in memory and in time.
type Text struct {
	t       *template.Template
	longest time.Duration // of one run
}

// Block is a template that a text must define.
type Block struct {
	Name  string
	Given any // a value of the type that runs of it will be given
}

// Parse reads a template. name stands in its errors, which give the line. It
// must define every one of the blocks. It may only name fields that what a block
// is given has, range only over lists among them, and no template may call
// itself, directly or through others.
func Parse(name, text string, blocks ...Block) (*Text, error) {
	if len(text) > largestFile {
		return nil, fmt.Errorf("%s: a template may have %d bytes, this has %d", name, largestFile, len(text))
	}
	t, err := template.New(name).Funcs(new(maker).functions()).Parse(text)
	if err != nil {
		return nil, plainError(err)
	}
	w := walker{name: name, lists: map[string]bool{}, calls: map[string][]string{}}
	for _, b := range blocks {
		w.listsOf(reflect.TypeOf(b.Given), map[reflect.Type]bool{})
	}
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
		if t.Lookup(b.Name) == nil {
			return nil, fmt.Errorf(`%s: the template must define %q: {{define %q}} ... {{end}}`, name, b.Name, b.Name)
		}
		if err := checkFields(t, b); err != nil {
			return nil, err
		}
	}
	return &Text{t, longestRun}, nil
}

// Run writes one of the template's blocks. Nothing is written unless the whole
// run succeeds. A run that takes too long is given up and left behind, so the
// program should end soon after.
func (t *Text) Run(w io.Writer, block string, data any) error {
	run, err := t.t.Clone()
	if err != nil {
		return err
	}
	run.Funcs(new(maker).functions())
	var out limited
	result := make(chan error, 1)
	go func() { result <- run.ExecuteTemplate(&out, block, data) }()
	select {
	case err := <-result:
		if err != nil {
			return t.placed(plainError(err))
		}
	case <-time.After(t.longest):
		return fmt.Errorf("%s: the template runs longer than %v", t.t.Name(), t.longest)
	}
	_, err = w.Write(out.Bytes())
	return err
}

// placed names the template in an error that does not.
func (t *Text) placed(err error) error {
	if strings.HasPrefix(err.Error(), t.t.Name()) {
		return err
	}
	return fmt.Errorf("%s: %w", t.t.Name(), err)
}

// limited refuses more than largestOutput bytes.
type limited struct{ bytes.Buffer }

func (l *limited) Write(p []byte) (int, error) {
	if l.Len()+len(p) > largestOutput {
		return 0, fmt.Errorf("the template writes more than %d bytes", largestOutput)
	}
	return l.Buffer.Write(p)
}

// plainError drops the library's own word before the place, and the middle of a
// message that quotes a long expression.
func plainError(err error) error {
	text := strings.TrimPrefix(err.Error(), "template: ")
	const most = 200 // bytes kept at either end
	if len(text) > 2*most {
		text = strings.ToValidUTF8(text[:most], "") + " ... " + strings.ToValidUTF8(text[len(text)-most:], "")
	}
	return errors.New(text)
}
