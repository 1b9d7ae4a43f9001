package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// feltPiece is a piece with its sections in the bars that a layer may be heard
// from, and a note for each of them. Sections in which it cannot be heard so
// stay as they are written, and their note says why; if all do, that is an error.
// The argument what is the layer's name, or "name=groups" for one of several ways to
// hear it.
func feltPiece(p *score.Piece, what string) (*score.Piece, []string, error) {
	name, groups := hearingOf(p, what)
	felt := *p
	felt.Sections = slices.Clone(p.Sections)
	var notes, whys []string
	found := false
	for i, s := range p.Sections {
		layer := slices.IndexFunc(s.Layers, func(l *score.Layer) bool { return l.Name == name })
		if layer < 0 {
			notes = append(notes, "bars as written: "+name+" does not play here")
			continue
		}
		ways, why := analysis.FeltFrom(s, layer)
		k := slices.IndexFunc(ways, func(f analysis.FeltBars) bool { return groups == "" || beat.Sum(f.Hearing.Groups) == groups })
		if k < 0 {
			if why == "" {
				why = "is not heard as " + groups + " but as " + strings.Join(heardAs(ways), " or ")
			}
			notes = append(notes, "bars as written: "+name+" "+why)
			whys = append(whys, name+" "+why)
			continue
		}
		found = true
		felt.Sections[i] = ways[k].Section
		notes = append(notes, feltNote(s, ways[k]))
	}
	if found {
		return &felt, notes, nil
	}
	return nil, nil, notFelt(p, name, whys)
}

// hearingOf divides "name=groups", unless a layer has that for its name.
func hearingOf(p *score.Piece, what string) (name, groups string) {
	for _, s := range p.Sections {
		if slices.ContainsFunc(s.Layers, func(l *score.Layer) bool { return l.Name == what }) {
			return what, ""
		}
	}
	if i := strings.LastIndex(what, "="); i >= 0 {
		return what[:i], strings.ReplaceAll(what[i+1:], " ", "")
	}
	return what, ""
}

func heardAs(ways []analysis.FeltBars) (all []string) {
	for _, w := range ways {
		all = append(all, beat.Sum(w.Hearing.Groups))
	}
	return all
}

// feltNote says whose bars these are and where they begin.
func feltNote(s *score.Section, f analysis.FeltBars) string {
	return fmt.Sprintf("bars as felt from %s, heard as %s: felt bar 1 begins at the written %s",
		s.Layers[f.Layer].Name, beat.Sum(f.Hearing.Groups), s.Where(f.Downbeat).ASCII())
}

// notFelt says why no section can be felt from a layer, and from which it can.
func notFelt(p *score.Piece, name string, whys []string) error {
	var able, all []string
	for _, s := range p.Sections {
		for i, l := range s.Layers {
			if slices.Contains(all, l.Name) {
				continue
			}
			all = append(all, l.Name)
			if ways, _ := analysis.FeltFrom(s, i); len(ways) > 0 {
				able = append(able, l.Name)
			}
		}
	}
	if len(whys) == 0 {
		return usage("--felt: no layer is named %q; the layers are %s", name, strings.Join(all, ", "))
	}
	text := "--felt: " + strings.Join(slices.Compact(whys), "; ")
	if len(able) > 0 {
		text += "; bars can be felt from " + strings.Join(able, ", ")
	}
	return errors.New(text)
}
