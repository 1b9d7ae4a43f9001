package engraving

import (
	"encoding/xml"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/export/engraving/pen"
	"tieover/layout"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/sample"
	"tieover/score/spec/spectest"
)

func TestInvariantsOfAllTestdata(t *testing.T) {
	if testing.Short() {
		t.Skip("long, and does nothing that others do not do as well where races are watched")
	}
	for path, p := range pieces(t) {
		for name, s := range sheetsOf(t, p) {
			for _, fault := range faults(s, Options{}) {
				t.Errorf("%s, %s: %s", path, name, fault)
			}
		}
	}
}

func TestInvariantsOfRandomPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := sample.YAML(t)
		p := spectest.Read(t, text)
		o := randomLayout(t)
		s, problems := layout.Lay(p, o)
		if rapid.Bool().Draw(t, "a part") {
			s, problems = layout.LayPart(p, o, 0)
		}
		if problems.Err() != nil {
			t.Skip("cannot be written in common notation")
		}
		width := []int{0, 6000, 16000}[rapid.IntRange(0, 2).Draw(t, "width")]
		for _, fault := range faults(s, Options{Width: width}) {
			t.Errorf("%s\n%s", fault, text)
		}
	})
}

// faults draws a sheet and lists what is wrong with the drawing.
func faults(s *sheet.Sheet, o Options) (all []string) {
	var read []string
	eachSystem(s, o, func(sys *System, last bool) {
		fault := func(format string, args ...any) {
			all = append(all, fmt.Sprintf("bars %d to %d: ", sys.FirstBar, sys.FirstBar+sys.Bars-1)+fmt.Sprintf(format, args...))
		}
		overlaps(sys, fault)
		texts(sys, fault)
		columns(sys, fault)
		stems(sys, fault)
		edges(sys, last, fault)
		air(sys, fault)
		frets(sys, fault)
		read = append(read, attacksIn(sys.Body, fault)...)
	})
	slices.Sort(read)
	if want := attacksOf(s); !slices.Equal(want, read) {
		all = append(all, fmt.Sprintf("attacks drawn are not those of the sheet:\n%v\n%v", want, read))
	}
	if len(all) > 6 {
		all = append(all[:6], fmt.Sprintf("and %d more", len(all)-6))
	}
	return all
}

type report func(format string, args ...any)

// overlaps: no two signs of a staff meet.
func overlaps(sys *System, fault report) {
	for i, a := range sys.boxes {
		for _, b := range sys.boxes[:i] {
			touch := pen.Unit(2)
			if a.What == "head" && b.What == "head" {
				touch = pen.StemLine // they share it
			}
			if a.Staff != b.Staff || a.X0+touch >= b.X1 || b.X0+touch >= a.X1 || a.Y0+2 >= b.Y1 || b.Y0+2 >= a.Y1 {
				continue
			}
			if a.What == "shared" || b.What == "shared" {
				continue
			}
			fault("%s (%d to %d) meets %s (%d to %d) on staff %d", a.What, a.X0, a.X1, b.What, b.X0, b.X1, a.Staff+1)
		}
	}
}

// texts: no two texts that hang at a staff meet.
func texts(sys *System, fault report) {
	for i, a := range sys.line.Labels {
		for _, b := range sys.line.Labels[:i] {
			if a.Staff == b.Staff && a.X0+2 < b.X1 && b.X0+2 < a.X1 && a.Y0+2 < b.Y1 && b.Y0+2 < a.Y1 {
				fault("texts meet on staff %d (%d to %d and %d to %d)", a.Staff+1, a.X0, a.X1, b.X0, b.X1)
			}
		}
	}
}

// columns: a moment has one place on all staves, and x grows with time.
func columns(sys *System, fault report) {
	l := sys.line
	for b := range l.Rows {
		last := l.Edges[b]
		for k, x := range l.Xs[b] {
			if x <= last {
				fault("column %d of bar %d does not move right", k+1, b+1)
			}
			last = x
		}
		if l.Edges[b+1] <= last {
			fault("bar %d ends before its last column", b+1)
		}
	}
	for i := range l.spots {
		s := &l.spots[i]
		if s.Note == nil {
			continue
		}
		if at := l.Rows[s.Bar].Columns[s.Column].At; at != s.Note.Start {
			fault("a note at %d stands at %d", s.Note.Start, at)
		}
	}
}

// stems: they are two and a half spaces at least, reach their beam, and no beam
// is steep or crosses a head.
func stems(sys *System, fault report) {
	l := sys.line
	for i := range l.spots {
		s := &l.spots[i]
		if s.Note == nil || !s.HasStem() {
			continue
		}
		length := s.Y(s.Order[len(s.Order)-1]) - s.tip
		if !s.Up {
			length = s.tip - s.Y(s.Order[0])
		}
		if length < s.Size(250) {
			fault("a stem of %d at bar %d", length, s.Bar+1)
		}
		if s.group >= 0 {
			if d := l.groups[s.group].at(s.stemX()) - s.tip; d < -2 || d > 2 {
				fault("a stem ends %d from its beam", d)
			}
		}
	}
	for i := range l.groups {
		g := &l.groups[i]
		for _, k := range g.spots {
			s := &l.spots[k]
			deep := s.Size(beamThick + pen.Unit(len(s.Note.Beams)-1)*beamStep) // of its beams
			if clear := g.outer(s) + deep + 45; s.Up && -s.tip < clear || !s.Up && s.tip < clear {
				fault("%d beams cross a head of bar %d", len(s.Note.Beams), s.Bar+1)
			}
		}
		if rise, run := g.y1-g.y0, g.x1-g.x0; max(rise, -rise)*100 > (run+1)*25 && rise*rise > 4 {
			fault("a beam rises %d in %d", rise, run)
		}
	}
}

// edges: everything is inside, and a line ends at its width unless it is the last.
func edges(sys *System, last bool, fault report) {
	l := sys.line
	for _, b := range sys.boxes {
		y := l.Staves[b.Staff].Y
		if b.X0 < 0 || b.X1 > l.Width+1 || y+b.Y0 < 0 || y+b.Y1 > l.height() {
			fault("%s (%d to %d, %d to %d) is outside %d by %d", b.What, b.X0, b.X1, y+b.Y0, y+b.Y1, l.Width, l.height())
		}
	}
	if end := l.Right() + l.Tail.Width; end > l.Width || !last && end < l.Width {
		fault("the line ends at %d of %d", end, l.Width)
	}
}

// air: staves keep their distance.
func air(sys *System, fault report) {
	l := sys.line
	for i := 1; i < len(l.Staves); i++ {
		a, b := &l.Staves[i-1], &l.Staves[i]
		for k := range a.Down {
			if b.Y+b.Up[k]-a.Y-a.Down[k] < leastAir {
				fault("staves %d and %d meet", i, i+1)
				return
			}
		}
	}
}

// attacksIn reads the attacks back from the drawing, and holds it to plain SVG.
func attacksIn(body []byte, fault report) (all []string) {
	plain := []string{"g", "path", "text"}
	d := xml.NewDecoder(strings.NewReader("<svg>" + string(body) + "</svg>"))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return all
		}
		if err != nil {
			fault("bad XML: %v", err)
			return all
		}
		el, ok := token.(xml.StartElement)
		if !ok || el.Name.Local == "svg" {
			continue
		}
		if !slices.Contains(plain, el.Name.Local) {
			fault("an element %s", el.Name.Local)
		}
		at, layer, tied, struck := "", "", false, false
		for _, a := range el.Attr {
			switch a.Name.Local {
			case "data-at":
				at, struck = a.Value, true
			case "data-layer":
				layer = a.Value
			case "data-tied":
				tied = true
			case "id", "style", "class", "href":
				fault("an attribute %s", a.Name.Local)
			}
		}
		if struck && !tied {
			for name := range strings.SplitSeq(layer, "\n") {
				all = append(all, name+" "+at)
			}
		}
	}
}

// attacksOf lists the attacks of a sheet: layers and moments.
func attacksOf(s *sheet.Sheet) (all []string) {
	for i := range s.Parts {
		p := &s.Parts[i]
		for bar := range p.Bars() {
			for _, v := range bar.Measure.Voices {
				if v.As == score.AsSlashes || bar.Repeats[v.Staff-1] > 0 {
					continue // signs without notes
				}
				for _, e := range v.Events {
					if n, ok := e.(*sheet.Note); ok && !n.TieIn {
						names := n.Layers
						if names == nil {
							names = []string{v.Layer}
						}
						for _, name := range names {
							all = append(all, name+" "+s.Grid.Span(bar.Start+n.Start).String())
						}
					}
				}
			}
		}
	}
	slices.Sort(all)
	return all
}

// The attacks read back from the drawing are those of the score itself, of the
// layers that are notes throughout.
func TestDrawnAttacksAreTheScores(t *testing.T) {
	for path, p := range pieces(t) {
		s, problems := layout.Lay(p, layout.Options{})
		require.NoError(t, problems.Err())
		want, got := []string{}, []string{}
		signs := map[string]bool{} // layers that are signs somewhere
		for _, sec := range p.Sections {
			for i, l := range sec.Layers {
				if signs[l.Name] = sec.EverWritten(l); signs[l.Name] {
					continue
				}
				for at := range sec.Attacks(i) {
					want = append(want, l.Name+" "+beat.Of(int64(sec.Start+at), int64(p.Grid)).String())
				}
			}
		}
		for sys := range Systems(s, Options{}) {
			got = append(got, attacksIn(sys.Body, func(format string, args ...any) { t.Errorf(path+": "+format, args...) })...)
		}
		got = slices.DeleteFunc(got, func(attack string) bool { return signs[attack[:strings.LastIndexByte(attack, ' ')]] })
		slices.Sort(want)
		slices.Sort(got)
		assert.Equal(t, want, got, path)
	}
}

func TestSameSheetSameBytes(t *testing.T) {
	for path, p := range pieces(t) {
		s, problems := layout.Lay(p, layout.Options{})
		require.NoError(t, problems.Err())
		once, again := strings.Builder{}, strings.Builder{}
		require.NoError(t, WriteHTML(&once, s, DefaultPaper, nil))
		require.NoError(t, WriteHTML(&again, s, DefaultPaper, nil))
		assert.Equal(t, once.String(), again.String(), path)
	}
}
