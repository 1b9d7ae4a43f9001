package templates

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzTemplate holds templates to their bounds whatever they say: reading and
// running end without a panic, what is written is bounded, and a run that fails
// writes nothing.
func FuzzTemplate(f *testing.F) {
	for _, text := range []string{
		`{{.Name | printf "%-6s|"}}{{range $i, $x := .Items}}{{$i}}{{$x.Text}}{{range $x.Subs}}({{.Text}}){{end}}{{end}}`,
		`{{range 1000000000000}}{{end}}`, `{{with .Items}}{{len .}}{{end}}`, `{{template "head" .}}`,
		`{{if and .Name (gt .Count 3)}}{{index .Items 1}}{{else}}{{slice .Name 0 2}}{{end}}`,
		`{{$x := .Name}}{{range .Items}}{{$x = print $x $x}}{{end}}`, `{{printf "%999999999d" 1}}`, `{{block "b" .}}{{.}}{{end}}`,
		`{{range .Items}}{{$0 = 0}}{{end}}`, `{{break}}{{continue}}`, `{{call .Name}}`, `{{eq .Items .Items}}`, `{{index .Items 99}}{{not}}`, `{{js "\x00<"}}{{urlquery .}}`,
	} {
		f.Add(text)
	}
	f.Add(Chart)
	f.Add(Worksheet)
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 1<<13 {
			t.Skip("long templates only take long")
		}
		for _, whole := range []string{text, `{{define "head"}}` + text + `{{end}}`} {
			tmpl, err := Parse("mine.tmpl", whole, Block{"head", model{}})
			if err != nil {
				require.NotEmpty(t, err.Error())
				continue
			}
			var out strings.Builder
			if err := tmpl.Run(&out, "head", some()); err != nil {
				require.Empty(t, out.String())
				continue
			}
			require.LessOrEqual(t, out.Len(), largestOutput)
		}
	})
}
