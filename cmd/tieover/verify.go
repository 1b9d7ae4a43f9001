package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tieover/cmd/tieover/files"
	"tieover/export/readback"
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
				err = readback.VerifyJSON(s.out, r)
			} else {
				err = readback.Verify(&visible{to: s.out}, r)
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
