package page

import (
	"fmt"
	"io"
	"strings"

	"tieover/layout/play"
	"tieover/score"
	"tieover/score/beat"
)

// Figure is one drawing as a file of its own.
type Figure struct {
	Name  string // "figures/B-realignment.svg", with forward slashes
	Write func(io.Writer) error
}

// Fits reports as TooMuch what makes a piece too large for a page, nil if it
// is not.
func Fits(p *score.Piece) error { return checkSize(p, play.Of(p, 0)) }

// Figures returns the drawings of a piece, each as an SVG that stands alone: of
// every section the realignment figure, the composite, a clock for each layer,
// and a still of the bars around each realignment. It fails with TooMuch where
// a page would.
func Figures(p *score.Piece) ([]Figure, error) {
	if err := Fits(p); err != nil {
		return nil, err
	}
	var all []Figure
	for i := range p.Sections {
		all = append(all, gather(p, i, nil).figures(prefix(p, i))...)
	}
	return all, nil
}

// prefix begins the names of a section's figures where there are several.
func prefix(p *score.Piece, i int) string {
	if len(p.Sections) == 1 {
		return ""
	}
	return fmt.Sprintf("%d-", i+1)
}

func (v *view) figures(prefix string) []Figure {
	strikes := v.strikes()
	file := func(name string, parts ...string) Figure {
		title := fmt.Sprintf("%s, %s: %s", v.title, v.name(), strings.ReplaceAll(name, "-", " "))
		return Figure{"figures/" + prefix + name + ".svg", func(w io.Writer) error {
			_, err := io.WriteString(w, standalone(title, parts))
			return err
		}}
	}
	var combs, both []string
	systems := v.systems(wide)
	for i := range systems {
		f := v.frame(i, systems, wide)
		combs = append(combs, v.drawSystem(f))
		f.alone = true
		both = append(both, v.drawComposite(f, strikes))
	}
	all := []Figure{file("realignment", combs...), file("composite", both...)}
	for i := range v.rows {
		if faces := v.rows[i].faces(); len(faces) > 0 { // a layer whose cycles change is drawn as it begins
			all = append(all, file("clock-"+v.rows[i].letter, faces[0]))
		}
	}
	n := 0
	for _, r := range v.realignments {
		if (r.Apart || r.Label != "") && n < mostStills {
			n++
			all = append(all, file(fmt.Sprintf("still-%d", n), v.still(r.Time, strikes)...))
		}
	}
	return all
}

// mostStills bounds how many realignments are drawn alone.
const mostStills = 64

// still draws the bar before a realignment and the one that begins with it; of
// one inside a bar, that bar and the next.
func (v *view) still(at beat.Time, strikes []strike) []string {
	from, to := at, at
	bars := v.readings[0].bars
	for i, b := range bars {
		switch {
		case b.Start < at && at < b.End():
			from, to = b.Start, bars[min(i+1, len(bars)-1)].End()
		case b.End() == at:
			from = b.Start
		case b.Start == at:
			to = b.End()
		}
	}
	if from == to {
		return nil
	}
	sys := system{from: from, to: to}
	room := wide.width - wide.left - wide.right
	sys.scale = scale{left: wide.left, width: room, time: to - from}
	if finest := v.finest(); sys.scale.of(finest) > wide.loosest {
		sys.scale.width, sys.scale.time = wide.loosest, finest
	}
	f := v.frame(0, []system{sys}, wide)
	return []string{v.drawSystem(f), v.drawComposite(f, strikes)}
}
