package readback

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"tieover/score/verify"
)

// Verify writes each difference on a line, what was left out in parentheses, and at the
// end how many there are and what was compared.
func Verify(w io.Writer, r *verify.Result) error {
	var b strings.Builder
	for _, d := range r.Differences {
		fmt.Fprintln(&b, d)
	}
	for _, remark := range r.Remarks {
		fmt.Fprintf(&b, "(%s)\n", remark)
	}
	compared := fmt.Sprintf("%s, %d notes", strings.Join(r.Compared, ", "), r.Notes)
	not := strings.Join(r.NotCompared, ", ")
	switch n := len(r.Differences); n {
	case 0:
		fmt.Fprintf(&b, "The same music: %s (not compared: %s).\n", compared, not)
	case 1:
		fmt.Fprintf(&b, "1 difference (compared: %s; not compared: %s).\n", compared, not)
	default:
		fmt.Fprintf(&b, "%d differences (compared: %s; not compared: %s).\n", n, compared, not)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// verifyJSON is the result for programs; version 1 only ever gains fields.
type verifyJSON struct {
	Version     int              `json:"version"`
	Same        bool             `json:"same"`
	Compared    []string         `json:"compared"`
	Notes       int              `json:"notes"`
	Differences []differenceJSON `json:"differences"`
	LeftOut     []string         `json:"leftOut"`
	NotCompared []string         `json:"notCompared"`
}

type differenceJSON struct {
	Kind  string `json:"kind"`
	Layer string `json:"layer,omitempty"`
	Bar   string `json:"bar,omitempty"`
	Pass  int    `json:"pass,omitempty"`
	Beat  int    `json:"beat,omitempty"`
	Past  string `json:"past,omitempty"` // after that beat, a fraction of a whole note
	Time  string `json:"time"`           // from the start, a fraction of a whole note
	Want  string `json:"want,omitempty"`
	Got   string `json:"got,omitempty"`
	Notes int    `json:"notes,omitempty"`
	Text  string `json:"text"`
}

// VerifyJSON writes the differences for programs.
func VerifyJSON(w io.Writer, r *verify.Result) error {
	out := verifyJSON{Version: 1, Same: len(r.Differences) == 0, Compared: r.Compared, Notes: r.Notes,
		Differences: []differenceJSON{}, LeftOut: append([]string{}, r.Remarks...), NotCompared: r.NotCompared}
	for _, d := range r.Differences {
		j := differenceJSON{Kind: d.Kind.String(), Layer: d.Layer, Bar: d.Where.Bar, Pass: d.Where.Pass, Beat: d.Where.Beat,
			Time: d.At.String(), Want: d.Want, Got: d.Got, Notes: d.Count, Text: d.String()}
		if d.Where.Past.Sign() != 0 {
			j.Past = d.Where.Past.String()
		}
		out.Differences = append(out.Differences, j)
	}
	return encodeJSON(w, out)
}

func encodeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}
