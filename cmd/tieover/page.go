package main

import (
	"fmt"
	"io"
	"strings"

	"tieover/export/chart"
	"tieover/export/page"
	"tieover/layout"
	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// chartColumns is how wide the chart of a page is set: on paper, as wide as its
// letters can be read.
const chartColumns = 100

// mostFelt is how many ways to feel the bars of a section a page offers.
const mostFelt = 8

// pageOptions say what a page shows beside the piece.
type pageOptions struct {
	version string         // of a page that is served: it reloads itself
	notes   layout.Options // how its notes are laid
	cut     int            // every so many bars, loops that nothing cuts are shown cut too; 0: not
}

// fillPage returns what writes the page of a piece; it fails where a page cannot hold it.
func fillPage(p *score.Piece, how pageOptions) (func(io.Writer) error, error) {
	if err := page.Fits(p); err != nil {
		return nil, err
	}
	versions, err := pageVersions(p, how.cut)
	return func(w io.Writer) error { return writePage(w, p, versions, how) }, err
}

// writePage writes the page of a piece, with a chart of each section, the bars
// that may be felt in it, and its loops cut and whole.
func writePage(w io.Writer, p *score.Piece, versions []*page.Versions, how pageOptions) error {
	o := page.Options{Version: how.version, Sections: make([]page.Beside, len(p.Sections))}
	addNotes(o.Sections, p, how.notes)
	for i, s := range p.Sections {
		beside := &o.Sections[i]
		if i < len(versions) {
			beside.Versions = versions[i]
		}
		var err error
		if beside.Chart, err = pageChart(p, s, chart.Options{}); err != nil {
			return err
		}
		if beside.Felt, err = pageFelt(p, s); err != nil {
			return err
		}
	}
	return page.Write(w, p, o)
}

// pageChart is the chart of one section.
func pageChart(p *score.Piece, s *score.Section, opt chart.Options) (string, error) {
	alone := *p
	alone.Sections = []*score.Section{s}
	opt.Width = chartColumns
	var text strings.Builder
	err := chart.Write(&text, &alone, opt)
	return text.String(), err
}

// pageFelt lists the bars that may be felt in a section.
func pageFelt(p *score.Piece, s *score.Section) (all []page.Felt, err error) {
	for i := range s.Layers {
		ways, _ := analysis.FeltFrom(s, i)
		for _, f := range ways {
			if len(all) == mostFelt {
				return all, nil
			}
			note := feltNote(s, f)
			text, err := pageChart(p, f.Section, chart.Options{Notes: []string{note}})
			if err != nil {
				return nil, err
			}
			all = append(all, page.Felt{Name: fmt.Sprintf("felt from %s, %s", s.Layers[i].Name, beat.Sum(f.Hearing.Groups)),
				Note: strings.ToUpper(note[:1]) + note[1:] + ". Bars before it are numbered down from 0; the notes stay as written.", Downbeat: f.Downbeat, Section: f.Section, Chart: text})
		}
	}
	return all, nil
}

// pageVersions lists the loops of each section that are cut, or would be, in both
// versions; nil where a page could not hold them all.
func pageVersions(p *score.Piece, every int) ([]*page.Versions, error) {
	both, all, err := allVersions(p, every)
	if err != nil {
		return nil, err
	}
	if err := page.Fits(both); err != nil {
		if every > 0 {
			return nil, err
		}
		return nil, nil
	}
	list := make([]*page.Versions, len(all))
	for i, v := range all {
		if len(v.twins) == 0 {
			continue
		}
		var opt chart.Options
		v.asRows(&opt)
		opt.Closing = [][]string{v.lines(v.section)}
		text, err := pageChart(p, v.section, opt)
		if err != nil {
			return nil, err
		}
		vs := &page.Versions{Section: v.section, Twins: v.twins, Cut: !p.Sections[i].IsCut(), Chart: text}
		for _, parts := range v.partings {
			vs.Partings = append(vs.Partings, page.Parting{At: parts.Time, Who: v.name(parts), Does: doesWord(parts.Now, 1), Into: v.detail(parts)})
		}
		list[i] = vs
	}
	return list, nil
}
