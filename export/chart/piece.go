package chart

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"tieover/export/chart/terminal"
	"tieover/layout/rows"
	"tieover/score"
	"tieover/score/beat"
	"tieover/templates"
)

// Head is what the template "head" is given, once for every section.
type Head struct {
	Heading                   string   // the built-in heading line
	Legend                    []string // lines that explain the signs not explained before
	Title, Subtitle, Composer string   // of the piece; empty when not given
	Section                   string   // name of this section
	Number, Sections          int      // which section this is, from 1, of how many
	Meter, Tempo              string   // "5/4", "quarter = 132"
	Width                     int      // columns
	Layers                    []Voice
}

// Foot is what the template "foot" is given, once for every section.
type Foot struct {
	Closing      []string // the built-in closing lines
	Layers       []Voice
	Realignments []Moment // the first three after the start, and the last
	Width        int
}

// Voice is one layer in the template's data.
type Voice struct {
	Letter, Name string
	Groups       string // "3+2+2+3"
	Pulse        string // "1/8"
	Whole        int64  // complete cycles
	Attacks      int64
}

// Moment is one realignment in the template's data.
type Moment struct{ Label, Words string }

// writePiece writes section after section.
func writePiece(w io.Writer, p *score.Piece, opt Options, chosen [][]int) error {
	name, words := "chart.tmpl", templates.Chart
	if opt.File != "" {
		name, words = opt.File, opt.Words
	}
	frame, err := templates.Parse(name, words, templates.Block{Name: "head", Given: Head{}}, templates.Block{Name: "foot", Given: Foot{}})
	if err != nil {
		return err
	}
	out := bufio.NewWriterSize(w, 64<<10)
	said := explained{}
	if err := checkBars(p, opt); err != nil {
		return err
	}
	for i, section := range p.Sections {
		if chosen[i] != nil && len(chosen[i]) == 0 {
			continue
		}
		s := newSetter(out, opt, rows.Of(section, chosen[i]))
		if i < len(opt.Notes) {
			s.note = opt.Notes[i]
		}
		if i < len(opt.Closing) {
			s.closing = opt.Closing[i]
		}
		if opt.Drift {
			err = s.drift(p, i, said)
		} else {
			err = s.section(p, i, frame, said)
		}
		if err != nil {
			return err
		}
	}
	return out.Flush()
}

// checkBars refuses a choice that no bar of the piece meets.
func checkBars(p *score.Piece, opt Options) error {
	last := p.Sections[len(p.Sections)-1]
	bars := last.FirstBar + rows.Of(last, nil).BarCount() - 1
	if opt.From > bars {
		return fmt.Errorf("there is no bar %d; the piece has bars 1 to %d", opt.From, bars)
	}
	return nil
}

// section writes one section.
func (s *setter) section(p *score.Piece, i int, frame *templates.Text, said explained) error {
	first, last := s.shown()
	if first > last {
		return nil
	}
	if l := s.sum.Landing; l != nil && !s.opt.Hide.Has(rows.HideLabels) {
		s.landing = l
		s.landingWidth = terminal.Width(s.landingNumber() + " " + s.landingLabel(l.Label, 0))
	}
	begun := false
	for y := range s.systems(first, last) {
		if !begun && !s.opt.Bare {
			if err := s.frame(frame, "head", s.head(p, i, y, said)); err != nil {
				return err
			}
		}
		begun = true
		s.write(y)
	}
	if s.opt.Bare || s.opt.Hide&^rows.DropTogether != 0 { // the closing lines would tell
		return nil
	}
	if err := s.frame(frame, "foot", s.foot()); err != nil {
		return err
	}
	if i+1 < len(p.Sections) {
		_, err := s.out.WriteString("\n")
		return err
	}
	return nil
}

// frame writes what a template makes, whose own words may need spelling too.
func (s *setter) frame(t *templates.Text, block string, data any) error {
	var words strings.Builder
	if err := t.Run(&words, block, data); err != nil {
		return err
	}
	text := words.String()
	if s.opt.ASCII {
		text = terminal.Spell(text, true)
	}
	_, err := s.out.WriteString(text)
	return err
}

// shown returns the bars, in the section, that the options let through.
func (s *setter) shown() (first, last int) {
	first, last = s.chart.Section.FirstN(), s.chart.BarCount()
	offset := s.chart.Section.FirstBar - 1
	if s.opt.From > 0 {
		first = max(first, s.opt.From-offset)
	}
	if s.opt.To > 0 {
		last = min(last, s.opt.To-offset)
	}
	return first, last
}

// noted is what is said of the section under its heading, in lines.
func (s *setter) noted() []string {
	if s.note == "" {
		return nil
	}
	return terminal.Wrap([]string{s.spell(s.note)}, "", s.opt.Width)
}

// head gathers what stands above the rows; the first row says where a bar
// begins, for the heading's second half to stand over.
func (s *setter) head(p *score.Piece, i int, y *system, said explained) Head {
	section := s.chart.Section
	h := Head{Title: s.spell(p.Title), Subtitle: s.spell(p.Subtitle), Composer: s.spell(p.Composer),
		Section: s.spell(section.Title()), Number: i + 1, Sections: len(p.Sections),
		Meter: section.Meter.String(), Tempo: s.spell(section.Tempo.InWords(beat.American) + section.Tempo.EquationInWords(beat.American)), Width: s.opt.Width, Layers: s.voices()}
	h.Heading = s.heading(h, y)
	h.Legend = append(s.noted(), terminal.Wrap(said.add(s.legend()), "   ", s.opt.Width)...)
	return h
}

func (s *setter) voices() []Voice {
	var list []Voice
	for i, n := range s.chart.Layers {
		l := s.chart.Section.Layers[n]
		list = append(list, Voice{Letter: s.letters[i], Name: s.spell(l.Name), Groups: rows.Grouping(l, 16),
			Pulse: l.Pulse.String(), Whole: s.sum.Layers[i].Whole, Attacks: s.sum.Attacks[i]})
	}
	return list
}

func (s *setter) span(t beat.Time) beat.Span { return s.chart.Section.Grid.Span(t) }
