package musicxml

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/beevik/etree"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

const documentBegin = `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">`

// header is the document's element with everything but its parts.
func header(laid *sheet.Sheet, o Options) (*etree.Element, error) {
	e := &encoder{sheet: laid, options: o}
	root := with(elem("score-partwise"), "version", "4.0")
	root.AddChild(leaf("movement-title", e.text("title", laid.Title)))
	root.AddChild(e.identification())
	root.AddChild(e.defaults())
	for _, c := range e.credits() {
		root.AddChild(c)
	}
	root.AddChild(e.partList())
	if e.err != nil {
		return nil, e.err
	}
	return root, nil
}

func (e *encoder) identification() *etree.Element {
	s := e.sheet
	id := elem("identification")
	if s.Composer != "" {
		id.AddChild(with(leaf("creator", e.text("composer", s.Composer)), "type", "composer"))
	}
	if s.Arranger != "" {
		id.AddChild(with(leaf("creator", e.text("arranger", s.Arranger)), "type", "arranger"))
	}
	if s.Rights != "" {
		id.AddChild(leaf("rights", e.text("rights", s.Rights)))
	}
	id.AddChild(e.encoding())
	if fields := e.miscellaneous(); len(fields.Child) > 0 {
		id.AddChild(fields)
	}
	return id
}

// encoding says what the absence of a sign means: no beam or accidental here
// is none in the music, while stems are left to the reader.
func (e *encoder) encoding() *etree.Element {
	enc := elem("encoding", leaf("software", "tieover"))
	if e.options.Date != "" {
		enc.AddChild(leaf("encoding-date", e.options.Date))
	}
	for _, s := range []struct{ name, all string }{{"accidental", "yes"}, {"beam", "yes"}, {"stem", "no"}} {
		enc.AddChild(with(elem("supports"), "element", s.name, "type", s.all))
	}
	var system, page bool
	if len(e.sheet.Parts) > 0 { // all break alike
		system, page = e.sheet.Parts[0].Breaks()
	}
	for _, s := range []struct {
		name string
		used bool
	}{{"new-page", page}, {"new-system", system}} {
		supports := with(elem("supports"), "attribute", s.name, "element", "print")
		if s.used {
			with(supports, "type", "yes", "value", "yes")
		} else {
			supports.CreateAttr("type", "no")
		}
		enc.AddChild(supports)
	}
	return enc
}

// miscellaneous names the layers of each part that has others than its own
// name says.
func (e *encoder) miscellaneous() *etree.Element {
	m := elem("miscellaneous")
	for i, p := range e.sheet.Parts {
		if len(p.Layers) == 0 || len(p.Layers) == 1 && p.Layers[0] == p.Name {
			continue
		}
		field := leaf("miscellaneous-field", e.text("layer name", strings.Join(p.Layers, ", ")))
		m.AddChild(with(field, "name", "layers of "+partID(i)))
	}
	return m
}

func (e *encoder) defaults() *etree.Element {
	o := e.options
	width, height := o.Page.size()
	margin := o.tenths(o.margin())
	staff := beat.Of(int64(o.staff()), 100).Rounded(2)
	return elem("defaults",
		elem("scaling", leaf("millimeters", staff), leaf("tenths", "40")),
		elem("page-layout",
			leaf("page-height", o.tenths(height)),
			leaf("page-width", o.tenths(width)),
			with(elem("page-margins",
				leaf("left-margin", margin), leaf("right-margin", margin),
				leaf("top-margin", margin), leaf("bottom-margin", margin)), "type", "both")))
}

// Lines of the title block, in 1/100 mm below the top margin.
const (
	subLine    = 1000
	namesLine  = 1700
	namesStep  = 500
	titleBlock = 2000 // what the block takes with a line of names
	belowTitle = 1000 // from there to the first system
)

// Letter sizes in points, own choice: steps of three from 9 at the foot to 21.
const (
	footSize  = 9
	namesSize = 12 // the subtitle too
	leastSize = 15 // of a title
	mostSize  = 21
)

// titleSize is the largest size at which a title fits a width in 1/100 mm, half
// a letter's height taken for each character; the least if none does.
func titleSize(title string, width int) int {
	const point = 2540 // 1/100 mm of 72 points
	letters := utf8.RuneCountInString(title)
	for size := mostSize; size > leastSize; size -= 3 {
		if letters*size*point <= 2*72*width {
			return size
		}
	}
	return leastSize
}

// titleLines breaks a title that does not fit even in the least size, at the
// blank nearest its middle.
func titleLines(title string, width int) string {
	const point = 2540
	letters := utf8.RuneCountInString(title)
	if letters*leastSize*point <= 2*72*width {
		return title
	}
	best, at, n := letters, -1, 0
	for i, r := range title {
		if away := max(2*n-letters, letters-2*n); r == ' ' && away < best {
			best, at = away, i
		}
		n++
	}
	if at < 0 {
		return title
	}
	return title[:at] + "\n" + title[at+1:]
}

// moreTitle is what a second line of the title takes.
func (e *encoder) moreTitle() int {
	width, _ := e.options.Page.size()
	return namesStep * strings.Count(titleLines(e.sheet.Title, width-2*e.options.margin()), "\n")
}

// titleHeight is how far below the top margin the first system begins.
func (e *encoder) titleHeight() int {
	height := titleBlock + belowTitle + e.moreTitle()
	if e.sheet.Composer != "" && e.sheet.Arranger != "" {
		height += namesStep
	}
	return height
}

// credits returns the title block: the same texts as the metadata, since some
// readers print one and some the other.
func (e *encoder) credits() []*etree.Element {
	s := e.sheet
	width, height := e.options.Page.size()
	margin := e.options.margin()
	left, center, right := margin, width/2, width-margin
	top := height - margin
	var made []*etree.Element
	add := func(kind, text string, x, y, size int, align, valign string) {
		if text == "" {
			return
		}
		words := with(leaf("credit-words", e.text(kind, text)),
			"default-x", e.options.tenths(x), "default-y", e.options.tenths(y),
			"font-size", strconv.Itoa(size), "halign", align)
		if valign == "top" { // a line at the bottom has no others to align with
			words.CreateAttr("justify", align)
		}
		words.CreateAttr("valign", valign)
		made = append(made, with(elem("credit", leaf("credit-type", kind), words), "page", "1"))
	}
	add("title", titleLines(s.Title, width-2*margin), center, top, titleSize(s.Title, width-2*margin), "center", "top")
	top -= e.moreTitle()
	add("subtitle", s.Subtitle, center, top-subLine, namesSize, "center", "top")
	names := namesLine
	if s.Composer != "" {
		add("composer", s.Composer, right, top-names, namesSize, "right", "top")
		names += namesStep
	}
	add("arranger", s.Arranger, right, top-names, namesSize, "right", "top")
	if p := s.OnlyPlayer(); p != nil {
		add("part name", strings.TrimSpace(p.Name+"\n"+p.Plays()), left, top-namesLine, namesSize, "left", "top")
	}
	add("rights", s.Rights, center, margin, footSize, "center", "bottom")
	return made
}
