package page

import (
	"html/template"
	"io"
)

// WriteProblems writes a page for `serve` that shows what is wrong with a spec
// and reloads itself when that has changed.
func WriteProblems(w io.Writer, problems []string, version string) error {
	return parsed("problems.html").Execute(w, struct {
		Style    template.CSS
		Problems []string
		Version  string
	}{template.CSS(asset("page.css")), problems, version})
}
