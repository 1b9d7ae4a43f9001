package main

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tieover/cmd/tieover/files"
	"tieover/score/heard"
	"tieover/score/heard/musicxml"
	"tieover/score/verify"
)

// newVerifyCmd makes `tieover verify`: is a score still the music of its spec?
func newVerifyCmd(s streams) *cobra.Command {
	var o verify.Options
	var parts []string
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "verify SPEC... SCORE",
		Short: "Compare a score with the spec it should sound like",
		Long: `Reads a MusicXML score (.musicxml, .xml or .mxl), perhaps edited by hand, and
compares what it sounds with what the spec says: every note that is missing, extra,
moved, longer or shorter or of another pitch, bars that do not add up, ties without
an end, and marks and parts that are lost. What one move of the hand did is one line:
bars cut out, doubled or repeated, parts exchanged, a layer that is late. Parts go by
their names; a file that says it is one player's part is compared with that part's
layers only. Exit code 0: the same music; 3: differences.`,
		Args: cobra.MinimumNArgs(2),
		RunE: func(_ *cobra.Command, args []string) error {
			var err error
			if o.Parts, err = partLayers(parts); err != nil {
				return err
			}
			specs, name := args[:len(args)-1], args[len(args)-1]
			p, err := loadQuietly(s, specs)
			if err != nil {
				return err
			}
			read, err := readScore(s, name)
			if err != nil {
				return err
			}
			r, err := verify.Compare(p, read, o)
			if err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
			if asJSON {
				err = writeVerifyJSON(s.out, r)
			} else {
				err = writeVerifyText(&visible{to: s.out}, r)
			}
			if err == nil && len(r.Differences) > 0 {
				err = exit{differs, nil}
			}
			return err
		},
	}
	f := cmd.Flags()
	f.StringArrayVar(&parts, "part", nil, "`NAME=LAYER,...`: the part of the score and the layers it holds")
	f.BoolVar(&asJSON, "json", false, "for programs")
	f.BoolVar(&o.RhythmOnly, "rhythm-only", false, "pitches and drum sounds do not matter")
	return cmd
}

// partLayers reads NAME=LAYER,LAYER.
func partLayers(flags []string) (map[string][]string, error) {
	parts := map[string][]string{}
	for _, text := range flags {
		name, layers, ok := strings.Cut(text, "=")
		if !ok || name == "" || layers == "" {
			return nil, usage("--part %s: write the part's name, = and its layers joined by commas", text)
		}
		names, err := splitNames(layers)
		if err != nil {
			return nil, usage("--part %s: %v", text, err)
		}
		parts[name] = append(parts[name], names...)
	}
	return parts, nil
}

// readingTime is how long a score may take to be read.
const readingTime = 30 * time.Second

// readScore reads a MusicXML file, "-" for standard input.
func readScore(s streams, name string) (*heard.Score, error) {
	file, called, err := openInput(s, name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	in := bufio.NewReader(file)
	if start, _ := in.Peek(4); string(start) == "MThd" {
		return nil, fmt.Errorf("%s is a MIDI file, which has no notation; give a MusicXML score", name)
	}
	ctx, stop := context.WithTimeout(context.Background(), readingTime)
	defer stop()
	read, err := musicxml.Read(ctx, in)
	var wrong *musicxml.ReadError
	switch {
	case err == nil:
		return read, nil
	case errors.As(err, &wrong):
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return nil, files.Error("cannot read", called, err)
}

func writeVerifyText(w io.Writer, r *verify.Result) error {
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

func writeVerifyJSON(w io.Writer, r *verify.Result) error {
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
