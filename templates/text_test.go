package templates

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type model struct {
	Name  string
	Count int
	Open  bool
	Items []item
	First *item
}

type item struct {
	Text string
	Subs []item
}

func some() model {
	return model{Name: "Lock", Count: 1 << 40, Items: []item{{Text: "a", Subs: []item{{Text: "b"}}}, {Text: "c"}}}
}

func read(text string) (*Text, error) {
	return Parse("mine.tmpl", `{{define "head"}}`+text+`{{end}}`, Block{"head", model{}})
}

func TestTemplatesRun(t *testing.T) {
	for text, want := range map[string]string{
		`{{.Name | printf "%-6s|"}}{{range $i, $x := .Items}}{{$i}}{{$x.Text}}{{range $x.Subs}}({{.Text}}){{end}}{{end}}`: "Lock  |0a(b)1c",
		`{{if .Open}}{{.Name}}{{else}}shut{{end}}`:                                "shut",
		`{{(index .Items 1).Text}}{{with .First}}{{.Text}}{{end}}`:                "c",
		`{{range .Items}}{{template "a" .}}{{end}}{{end}}{{define "a"}}{{.Text}}`: "ac",
		`{{range 3}}{{.}}{{end}}`:                                                 "012",
	} {
		tmpl, err := read(text)
		require.NoError(t, err, text)
		var out strings.Builder
		require.NoError(t, tmpl.Run(&out, "head", some()), text)
		assert.Equal(t, want, out.String(), text)
	}
}

// A field that is not there is found when a template is read, also in a branch
// that a run would not take, with its line and column and what there is.
func TestMissingFields(t *testing.T) {
	for text, want := range map[string]string{
		"\n{{.Missing}}":                                        `mine.tmpl:2:2: there is no .Missing here; the fields are .Name .Count .Open .Items .First`,
		`{{range .Items}}{{.Name}}{{end}}`:                      "there is no .Name here; the fields are .Text .Subs",
		`{{if .Open}}{{else}}{{.Shut}}{{end}}`:                  "there is no .Shut here",
		`{{if .Open}}{{.Shut}}{{end}}`:                          "there is no .Shut here",
		`{{range .Items}}{{else}}{{.None}}{{end}}`:              "there is no .None here",
		`{{range .Items}}{{range .Subs}}{{.Sub}}{{end}}{{end}}`: "there is no .Sub here; the fields are .Text .Subs",
		`{{with .First}}{{.Name}}{{end}}`:                       "there is no .Name here; the fields are .Text .Subs",
		`{{.Name.Long}}`:                                        "there is no .Long here; the fields are none",
		`{{template "a" .}}{{end}}{{define "a"}}{{.Text}}`:      "there is no .Text here",
		`{{.Name`:             "mine.tmpl:1: ",
		`{{readFile "/etc"}}`: `function "readFile" not defined`,
	} {
		_, err := read(text)
		if assert.ErrorContains(t, err, want, text) {
			assert.NotContains(t, err.Error(), "template: ", text)
		}
	}
	_, err := Parse("mine.tmpl", `{{define "foot"}}{{end}}`, Block{"head", model{}})
	assert.EqualError(t, err, `mine.tmpl: the template must define "head": {{define "head"}} ... {{end}}`)
}

// What only a run can know ends it, and nothing is written.
func TestRunsThatFail(t *testing.T) {
	for text, want := range map[string]string{
		`before{{(index .Items 7).Text}}`:                          "index out of range: 7",
		`{{range 20}}{{printf "%1000000d" 1}}{{end}}`:              "the template writes more than 16777216 bytes",
		`{{template "a" .}}{{end}}{{define "a"}}{{slice .Name 9}}`: `mine.tmpl:1:`,
	} {
		tmpl, err := read(text)
		require.NoError(t, err, text)
		var out strings.Builder
		assert.ErrorContains(t, tmpl.Run(&out, "head", some()), want, text)
		assert.Empty(t, out.String())
	}
}

// The built-in templates define what they must; what they print is tested where
// they are used.
func TestBuiltInTemplates(t *testing.T) {
	assert.Contains(t, Chart, `{{define "head"}}`)
	assert.Contains(t, Worksheet, `{{define "student"}}`)
}
