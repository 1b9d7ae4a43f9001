package templates

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type model struct {
	Name  string
	Count int
	Items []item
}

type item struct {
	Text string
	Subs []item
}

func some() model {
	return model{Name: "Lock", Count: 1 << 40, Items: []item{{Text: "a", Subs: []item{{Text: "b"}}}, {Text: "c"}}}
}

func read(text string) (*Text, error) {
	tmpl, err := Parse("mine.tmpl", `{{define "head"}}`+text+`{{end}}`, Block{"head", model{}})
	if err == nil {
		tmpl.longest = time.Hour // whatever bounds a run, it is not how busy the machine is
	}
	return tmpl, err
}

func TestWhatIsAllowed(t *testing.T) {
	text, err := read(`{{.Name | printf "%-6s|"}}{{range $i, $x := .Items}}{{$i}}{{$x.Text}}{{range $x.Subs}}({{.Text}}){{end}}{{end}}`)
	require.NoError(t, err)
	var out strings.Builder
	require.NoError(t, text.Run(&out, "head", some()))
	assert.Equal(t, "Lock  |0a(b)1c", out.String())
}

// Every way known to us to make a template run for ever, eat memory or reach
// outside is refused, with its place where there is one.
func TestWhatIsRefusedWhenRead(t *testing.T) {
	for text, want := range map[string]string{
		`{{range 1000000000000}}{{end}}`:                               "mine.tmpl:1:25: range may only go over a list of the model, as in {{range .Items}}, not over 1000000000000",
		`{{range .Count}}{{end}}`:                                      "range may only go over a list of the model",
		"\n\n{{range $x := .Count}}{{end}}":                            "mine.tmpl:3:",
		`{{$n := 9999999999}}{{range $n}}{{end}}`:                      "range may only go over a list",
		`{{range (slice .Name 0 1)}}{{end}}`:                           "range may only go over a list",
		`{{with .Items}}{{range .}}{{end}}{{end}}`:                     "range may only go over a list",
		`{{template "head" .}}`:                                        `template "head" calls itself`,
		`{{template "a" .}}{{end}}{{define "a"}}{{template "head" .}}`: "calls itself",
		`{{range .Items}}{{range .Subs}}{{range .Subs}}{{range .Subs}}{{range .Subs}}{{end}}{{end}}{{end}}{{end}}{{end}}`: "more than 4 deep",
		`{{.Name`:             "mine.tmpl:1: ",
		`{{readFile "/etc"}}`: `function "readFile" not defined`,
	} {
		_, err := read(text)
		if assert.Error(t, err, text) {
			assert.Contains(t, err.Error(), want, text)
			assert.NotContains(t, err.Error(), "template: ", text)
		}
	}
	_, err := Parse("mine.tmpl", `{{define "foot"}}{{end}}`, Block{"head", model{}})
	assert.ErrorContains(t, err, `the template must define "head"`)
	_, err = Parse("mine.tmpl", strings.Repeat("x", largestFile+1))
	assert.ErrorContains(t, err, "a template may have 262144 bytes")
}

func TestWhatIsRefusedWhenRun(t *testing.T) {
	long := some()
	for range 12 {
		long.Items = append(long.Items, long.Items...)
	}
	for text, want := range map[string]string{
		`{{$x := 1}}{{$x = .}}{{$x.Missing}}`:                                "can't evaluate field Missing",
		"{{len (print" + strings.Repeat(" .", 101) + ")}}":                   "more than 100 values in one call",
		`{{printf "%1000v" .Items}}`:                                         "a list is no text; name one of its fields",
		`{{.Items | print | len}}`:                                           "a list is no text",
		`{{range .Items}}{{html .}}{{end}}`:                                  "this is no text; name one of its fields",
		`{{print .Name (index .Items 0)}}`:                                   "this is no text",
		`{{printf "%999999999d" 1}}`:                                         "a width over 1000",
		`{{printf "%*d" 99 1}}`:                                              "* is not allowed",
		`{{printf "%.999999999f" 1.0}}`:                                      "a width over 1000",
		`{{$x := .Name}}{{range .Items}}{{$x = print $x $x}}{{end}}`:         "more than 65536 bytes in one text",
		`{{$x := .Name}}{{range .Items}}{{$x = html $x $x}}{{end}}`:          "more than 65536 bytes in one text",
		`{{$x := .Name}}{{range .Items}}{{$x = printf "%s%s" $x $x}}{{end}}`: "more than 65536 bytes in one text",
		`{{range .Items}}{{range $.Items}}aaaaaaaaaaaaaaaa{{end}}{{end}}`:    "the template writes more than 16777216 bytes",
	} {
		tmpl, err := read(text)
		require.NoError(t, err, text)
		var out strings.Builder
		err = tmpl.Run(&out, "head", long)
		if assert.Error(t, err, text) {
			assert.Contains(t, err.Error(), want, text)
			assert.Contains(t, err.Error(), "mine.tmpl:", text)
		}
		assert.Empty(t, out.String(), "nothing of a failed run is written: %s", text)
	}
}

// A field that the model does not have is found when the template is read, also
// where a run would not come by; what is there is not refused.
func TestFieldsThatAreNotThere(t *testing.T) {
	for text, want := range map[string]string{
		`{{.Missing}}`:                                          "mine.tmpl:1:19: there is no .Missing here; the fields are .Name .Count .Items",
		`{{if false}}{{.Missing}}{{end}}`:                       "there is no .Missing here",
		`{{range .Items}}{{.Name}}{{end}}`:                      "mine.tmpl:1:35: there is no .Name here; the fields are .Text .Subs",
		`{{range $i, $x := .Items}}{{$x.Count}}{{end}}`:         "there is no .Count here",
		`{{with .Items}}{{.Text}}{{end}}`:                       "there is no .Text: what stands before it has no fields",
		`{{.Name.Long}}`:                                        "there is no .Long: what stands before it has no fields",
		`{{printf "%s" .Missing}}`:                              "there is no .Missing here",
		`{{$.Text}}`:                                            "there is no .Text here",
		`{{template "a" .}}{{end}}{{define "a"}}{{.Text}}`:      "there is no .Text here",
		`{{range .Items}}{{range .Subs}}{{.Sub}}{{end}}{{end}}`: "there is no .Sub here; the fields are .Text .Subs",
	} {
		_, err := read(text)
		assert.ErrorContains(t, err, want, text)
	}
	for _, text := range []string{
		`{{range .Items}}{{.Text}}{{$.Name}}{{range .Subs}}{{.Text}}{{end}}{{end}}`,
		`{{$n := .Name}}{{$n}}{{with index .Items 0}}{{.Text}}{{end}}`,
		`{{range .Items}}{{template "a" .}}{{end}}{{end}}{{define "a"}}{{.Text}}{{if .Subs}}{{len .Subs}}{{end}}`,
		`{{range $i, $x := .Items}}{{if $i}}, {{end}}{{$x.Text}}{{else}}{{.Name}}{{end}}`,
	} {
		tmpl, err := read(text)
		require.NoError(t, err, text)
		assert.NoError(t, tmpl.Run(&strings.Builder{}, "head", some()), text)
	}
}

// What a variable is after it was given another value is left to the run, also
// where that happened in a branch or a loop.
func TestVariablesThatAreSetAgain(t *testing.T) {
	for text, want := range map[string]string{
		`{{$x := .}}{{range .Items}}{{$x = .}}{{end}}{{$x.Text}}`:                               "c",
		`{{$x := .}}{{with index .Items 0}}{{$x = .}}{{end}}{{$x.Text}}`:                        "a",
		`{{range $i, $x := .Items}}{{$i}}{{else}}{{$x}}{{$i}}{{end}}`:                           "01",
		`{{$x := .Name}}{{if .Items}}{{$x := .Items}}{{range $x}}{{.Text}}{{end}}{{end}}{{$x}}`: "",
	} {
		tmpl, err := read(text)
		if want == "" {
			assert.ErrorContains(t, err, "range may only go over a list of the model")
			continue
		}
		require.NoError(t, err, text)
		var out strings.Builder
		require.NoError(t, tmpl.Run(&out, "head", some()))
		assert.Equal(t, want, out.String())
	}
}

// A scope inside another shares its variables, so thousands of scopes one inside
// the other take memory in proportion to the text.
func TestScopesShareTheirVariables(t *testing.T) {
	whole := &scope{}
	whole.declare("$", nil)
	inner := whole.inner(nil)
	assert.Same(t, whole.vars, inner.vars)
	inner.declare("$x", nil)
	assert.Same(t, whole.vars, inner.vars.outer)

	var text strings.Builder
	for i := range 8000 {
		fmt.Fprintf(&text, "{{with $%x:=.}}", i)
	}
	text.WriteString(strings.Repeat("{{end}}", 8000))
	_, err := read(text.String())
	assert.NoError(t, err)
}

// A message quotes no long expression.
func TestErrorsAreShort(t *testing.T) {
	_, err := read("{{.Name" + strings.Repeat(".x", 50000) + "}}")
	require.Error(t, err)
	assert.Less(t, len(err.Error()), 500)
	tmpl, err := read("{{print" + strings.Repeat(" .Name", 20000) + "}}")
	require.NoError(t, err)
	err = tmpl.Run(&strings.Builder{}, "head", some())
	assert.ErrorContains(t, err, "more than 100 values in one call")
	assert.Less(t, len(err.Error()), 500)
}

// Ten thousand texts that are each small enough are too many.
func TestAllTextTogetherIsBounded(t *testing.T) {
	x := `{{$x := .Name}}` + strings.Repeat(`{{$x = print $x $x}}`, 13)
	tmpl, err := read(x + strings.Repeat(`{{$y := print $x "a"}}`, 5000))
	require.NoError(t, err)
	assert.ErrorContains(t, tmpl.Run(&strings.Builder{}, "head", some()), "functions make more than 67108864 bytes of text")
}

// stubborn is a value whose text does not come before it is woken.
type stubborn chan struct{}

func (s stubborn) String() string { <-s; return "" }

// A run that neither writes nor ends is given up.
func TestARunIsGivenUp(t *testing.T) {
	type sleeper struct{ Lock stubborn }
	lock := stubborn(make(chan struct{}))
	defer close(lock)
	tmpl, err := Parse("mine.tmpl", `{{define "head"}}{{.Lock}}{{end}}`, Block{"head", sleeper{}})
	require.NoError(t, err)
	assert.Equal(t, 5*time.Second, tmpl.longest)
	tmpl.longest = 10 * time.Millisecond
	var out strings.Builder
	assert.EqualError(t, tmpl.Run(&out, "head", sleeper{lock}), "mine.tmpl: the template runs longer than 10ms")
	assert.Empty(t, out.String())
}

// The built-in templates pass their own rules; what they print is tested where
// they are used.
func TestBuiltInTemplatesAreNotEmpty(t *testing.T) {
	assert.Contains(t, Chart, `{{define "head"}}`)
	assert.Contains(t, Worksheet, `{{define "student"}}`)
}
