package templates

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"reflect"
	"regexp"
	"strings"
	"text/template"
)

// largestOutput bounds what one run may write, in bytes.
const largestOutput = 16 << 20

// Text is a template, a program of the user's own. It cannot open files, and
// what it may write is bounded; nothing else is.
type Text struct{ t *template.Template }

// Block is a template that a text must define.
type Block struct {
	Name  string
	Given any // a value of the type that runs of it will be given
}

// Parse reads a template. name stands in its errors, which give the line. It
// must define every one of the blocks. Each is run once with every list and text
// of its model filled and once with all of them empty, so that a field that is
// not there is found before anything is written.
func Parse(name, text string, blocks ...Block) (*Text, error) {
	t, err := template.New(name).Parse(text)
	if err != nil {
		return nil, plainError(err)
	}
	for _, b := range blocks {
		if t.Lookup(b.Name) == nil {
			return nil, fmt.Errorf(`%s: the template must define %q: {{define %q}} ... {{end}}`, name, b.Name, b.Name)
		}
		of := reflect.Indirect(reflect.ValueOf(b.Given)).Type()
		empty, filled := reflect.New(of).Elem(), reflect.New(of).Elem()
		fields := map[string]string{} // of each type
		fill(filled, fields, 0)
		for _, model := range []reflect.Value{filled, empty} {
			err := t.ExecuteTemplate(&limited{}, b.Name, model.Interface())
			if m := noField.FindStringSubmatch(fmt.Sprint(err)); m != nil {
				return nil, fmt.Errorf("%s: there is no .%s here; the fields are %s", m[1], m[2], cmp.Or(fields[m[3]], "none"))
			}
		}
	}
	return &Text{t}, nil
}

var noField = regexp.MustCompile(`^template: (.*): executing .*can't evaluate field (\w+) in type \*?(\S+)$`)

// fill gives a value to everything in a model, two items to each list, and notes
// the fields of its types.
func fill(v reflect.Value, fields map[string]string, depth int) {
	switch kind := v.Kind(); {
	case !v.CanSet() || depth > 8:
	case kind == reflect.String:
		v.SetString("x")
	case v.CanInt():
		v.SetInt(1)
	case v.CanUint():
		v.SetUint(1)
	case kind == reflect.Bool:
		v.SetBool(true)
	case kind == reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(v.Elem(), fields, depth+1)
	case kind == reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		fill(v.Index(0), fields, depth+1)
		fill(v.Index(1), fields, depth+1)
	case kind == reflect.Struct:
		var names []string
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				names = append(names, "."+v.Type().Field(i).Name)
				fill(v.Field(i), fields, depth+1)
			}
		}
		fields[v.Type().String()] = strings.Join(names, " ")
	}
}

// Run writes one of the template's blocks. Nothing is written unless the whole
// run succeeds.
func (t *Text) Run(w io.Writer, block string, data any) error {
	var out limited
	if err := t.t.ExecuteTemplate(&out, block, data); err != nil {
		return plainError(err)
	}
	_, err := w.Write(out.Bytes())
	return err
}

// limited refuses more than largestOutput bytes, which ends the run.
type limited struct{ bytes.Buffer }

func (l *limited) Write(p []byte) (int, error) {
	if l.Len()+len(p) > largestOutput {
		return 0, fmt.Errorf("the template writes more than %d bytes", largestOutput)
	}
	return l.Buffer.Write(p)
}

// plainError drops the library's own word before the place.
func plainError(err error) error { return errors.New(strings.TrimPrefix(err.Error(), "template: ")) }
