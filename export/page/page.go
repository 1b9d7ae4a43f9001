package page

import (
	"embed"
	"fmt"
	"html/template"
	"io"
	"slices"

	"tieover/layout/play"
	"tieover/score"
	"tieover/score/beat"
)

// Limits of a page: all of it is held in memory, here and in the browser.
const (
	MostAttacks = 20_000
	MostPulses  = 200_000 // drawn stems
	MostBars    = 20_000
)

// TooMuch reports that a piece is too large for a page.
type TooMuch struct {
	Most int
	What string
}

func (e TooMuch) Error() string {
	return fmt.Sprintf("page.html would show more than %d %s; give a shorter `length`, or leave page out with --only", e.Most, e.What)
}

// Options are what a page may be given beside the piece.
type Options struct {
	Sections []Beside // of each section; may be nil
	Version  string   // of a page that is served: it reloads itself when the server names another; "" asks for nothing
}

// Beside is what a page shows of a section beside its figures.
type Beside struct {
	Chart     string    // as text, with its legend; may be ""
	Notes     []Notes   // each choice of them; may be nil
	NotesStop string    // why notes end before the section does, or there are none; "" if all are there
	Felt      []Felt    // other bars that may be felt in it; may be nil
	Versions  *Versions // its loops cut and whole; nil where it has none
}

//go:embed assets
var assets embed.FS

// parsed is an embedded template, ready to be executed; few runs of the program need one.
func parsed(name string) *template.Template {
	return template.Must(template.ParseFS(assets, "assets/"+name))
}

func asset(name string) string {
	b, err := assets.ReadFile("assets/" + name)
	if err != nil {
		panic(err) // embedded
	}
	return string(b)
}

// script joins the parts of the player, in the order in which they build on one
// another, into one scope. Only a served page has the last.
func script(served bool) string {
	names := []string{"time", "media", "sound", "course", "place", "notes", "loop", "visit", "wall", "controls", "felt", "recording"}
	if served {
		names = append(names, "keep")
	}
	for i, name := range names {
		names[i] = "player/" + name
	}
	return joined(names...)
}

// joined joins scripts into one scope.
func joined(names ...string) string {
	parts := ""
	for _, name := range names {
		parts += "\n" + asset(name+".js")
	}
	return "\"use strict\";\n(() => {" + parts + "})();"
}

// shown is what the template is filled with.
type shown struct {
	Title, Subtitle, By, Rights string
	FigureStyle, Style          template.CSS
	Script                      template.JS
	Data                        data
	Sections                    []shownSection
	Choices                     []string // whose notes can be shown
	Felt                        []string // the bars that can be felt
	Versions                    bool     // some loops have two versions
	Version                     string
	Recording                   string // the file that the spec is aligned with
}

type shownSection struct {
	Index     int
	Name      string
	Facts     []string
	Systems   []shownSystem
	Beside    Beside
	Clocks    []shownClock
	Meetings  []meeting
	Drift     []driftRow
	MoreDrift string
	Reference string
	Charts    []string // in each reading
	Felt      []string // of each reading, where its bars begin
	Versions  *shownVersions
	Sheet     sheet
}

type shownSystem struct {
	Size              string
	Bars              []string // in each reading
	Figure, Composite template.HTML
}

type shownClock struct {
	Row    int
	Name   string
	First  template.HTML
	Others []template.HTML
}

type meeting struct {
	Label string
	Where []string // in each reading
	Time  string
	At    beat.Time // the section's
}

// Write writes the page. It fails with TooMuch past the limits.
func Write(w io.Writer, p *score.Piece, o Options) error {
	f := play.Of(p, 0)
	if err := checkSize(p, f); err != nil {
		return err
	}
	out := shown{
		Title: p.Title, Subtitle: p.Subtitle, By: byline(p), Rights: p.Rights,
		FigureStyle: template.CSS(asset("figure.css")), Style: template.CSS(asset("page.css")),
		Script: template.JS(script(o.Version != "")), Version: o.Version, Choices: o.choices(),
	}
	var views []*view
	doubled := make([]*doubledView, len(p.Sections))
	for i := range p.Sections {
		var beside Beside
		if i < len(o.Sections) {
			beside = o.Sections[i]
		}
		v := gather(p, i, beside.Felt)
		section := v.show(beside.Chart)
		section.Beside = beside
		if beside.Versions != nil {
			doubled[i] = gatherVersions(p, i, beside.Versions, beside.Felt)
			section.Versions, out.Versions = doubled[i].show(), true
		}
		for _, rd := range v.readings[1:] {
			if !slices.Contains(out.Felt, rd.name) {
				out.Felt = append(out.Felt, rd.name)
			}
		}
		views, out.Sections = append(views, v), append(out.Sections, section)
	}
	out.Data = newData(f, p, views)
	if out.Versions {
		addVersions(&out.Data, p, doubled)
	}
	if r := out.Data.Recording; r != nil {
		out.Recording = r.File
	}
	return parsed("page.html").Execute(w, out)
}

// checkSize checks the limits, as far as can be without drawing.
func checkSize(p *score.Piece, f *play.Performance) error {
	if f.CountUpTo(MostAttacks) > MostAttacks {
		return TooMuch{MostAttacks, "attacks"}
	}
	bars, pulses := 0, int64(0)
	for _, s := range p.Sections {
		bars += s.BarCount()
		for _, l := range s.Layers {
			pulses += int64((l.Leaves - l.Enters) / l.Unit)
		}
	}
	switch {
	case bars > MostBars:
		return TooMuch{MostBars, "bars"}
	case pulses > MostPulses:
		return TooMuch{MostPulses, "pulses"}
	}
	return nil
}

func byline(p *score.Piece) string {
	switch {
	case p.Composer != "" && p.Arranger != "":
		return p.Composer + ", arranged by " + p.Arranger
	case p.Arranger != "":
		return "arranged by " + p.Arranger
	}
	return p.Composer
}

// show draws everything of a section.
func (v *view) show(chart string) shownSection {
	out := shownSection{Index: v.index, Name: v.name(), Facts: v.facts(), Meetings: v.meetings(),
		Systems: v.drawAll(true), Reference: v.rows[v.reference()].letter}
	for i := range v.rows {
		r := &v.rows[i]
		clock := shownClock{Row: i, Name: r.layer.Name}
		for k, svg := range r.faces() {
			if k == 0 {
				clock.First = template.HTML(svg)
			} else {
				clock.Others = append(clock.Others, template.HTML(svg))
			}
		}
		out.Clocks = append(out.Clocks, clock)
	}
	rows, all := v.drift()
	out.Drift = rows
	if all > len(rows) {
		out.MoreDrift = fmt.Sprintf("The first %d of %d cycles; the report has all.", len(rows), all)
	}
	v.readings[0].chart = chart
	out.Charts, out.Felt = v.sentence(func(rd *reading) string { return rd.chart }), v.sentence(func(rd *reading) string { return rd.note })
	out.Sheet = v.sheet(out.Charts)
	return out
}

// drawAll draws the systems of the figure for wide windows, then those for phones.
func (v *view) drawAll(withComposite bool) (all []shownSystem) {
	strikes := v.strikes()
	for _, m := range []measures{wide, narrow} {
		systems := v.systems(m)
		for i := range systems {
			f := v.frame(i, systems, m)
			bars := v.sentence(func(rd *reading) string { return rd.barsOf(f) })
			system := shownSystem{Size: m.name, Bars: bars, Figure: template.HTML(v.drawSystem(f))}
			if withComposite {
				system.Composite = template.HTML(v.drawComposite(f, strikes))
			}
			all = append(all, system)
		}
	}
	return all
}

// barsOf says which bars a system shows: "bars 1 to 3".
func (rd *reading) barsOf(f frame) string {
	bars := rd.barsIn(f.sys)
	if len(bars) == 0 {
		return ""
	}
	first, last := bars[0].Number, bars[len(bars)-1].Number
	if first == last {
		return fmt.Sprintf("bar %d", first)
	}
	return fmt.Sprintf("bars %d to %d", first, last)
}

// name is what a section is called on the page.
func (v *view) name() string {
	if v.s.Name != "" {
		return "Section " + v.s.Name
	}
	return "Section " + v.s.Letter()
}
