package musicxml

import (
	"cmp"
	"context"
	"encoding/xml"
	"errors"
	"io"

	"tieover/score/heard"
)

// reading is one file while it is read: first every bar of every part as it is
// written, then the performance.
type reading struct {
	*tokens
	title   string
	extract bool // a credit names the one player it is for
	parts   []*readPart
	byID    map[string]*readPart
	grid    int64 // ticks in a whole note; grows as finer durations turn up
	notes   int   // written so far
	remarks []heard.Remark
	meters  map[string]readMeter
}

// readPart is one part as it is written.
type readPart struct {
	id, name, short string
	instruments     []readInstrument
	bars            []*readBar
	state           readState
	clef            string // the first
	notes, cues     int    // as written
}

// readInstrument is a score-instrument of the part list.
type readInstrument struct {
	id string
	heard.Instrument
	midi uint8 // midi-unpitched, from 1; 0 when not given
}

func newReading(ctx context.Context, text io.Reader) *reading {
	return &reading{tokens: newTokens(ctx, text), byID: map[string]*readPart{}, meters: map[string]readMeter{}, grid: 4}
}

// score reads the whole document.
func (in *reading) score() error {
	root, err := in.root()
	if err != nil {
		return err
	}
	timewise := root.Name.Local == "score-timewise"
	if !timewise && root.Name.Local != "score-partwise" {
		return failed(in.line(), "the root element is <%s>; a MusicXML score begins with <score-partwise> or <score-timewise>", root.Name.Local)
	}
	if err := in.children(root, func(child xml.StartElement) error { return in.header(child, timewise) }); err != nil {
		return err
	}
	for {
		token, err := in.next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return err
		}
		if _, text := token.(xml.CharData); !text {
			return failed(in.line(), "something follows the end of the score")
		}
	}
	if len(in.parts) == 0 {
		return failed(0, "the score has no parts")
	}
	return nil
}

func (in *reading) root() (xml.StartElement, error) {
	for {
		token, err := in.next()
		if errors.Is(err, io.EOF) {
			return xml.StartElement{}, failed(0, "the file holds no XML element")
		}
		if err != nil {
			return xml.StartElement{}, err
		}
		if start, ok := token.(xml.StartElement); ok {
			return start, nil
		}
	}
}

// header reads one child of the root.
func (in *reading) header(child xml.StartElement, timewise bool) error {
	switch child.Name.Local {
	case "movement-title", "work":
		e, err := in.tree(child)
		if err != nil {
			return err
		}
		if e.name == "movement-title" && e.text != "" {
			in.title = e.text
		} else if title := e.kidText("work-title"); in.title == "" {
			in.title = title
		}
		return nil
	case "credit":
		e, err := in.tree(child)
		if err != nil {
			return err
		}
		in.extract = in.extract || e.kidText("credit-type") == "part name"
		return nil
	case "part-list":
		return in.children(child, in.partList)
	case "part":
		if timewise {
			return failed(in.line(), "a <part> stands outside the bars of a timewise score")
		}
		part, err := in.part(child)
		if err != nil {
			return err
		}
		return in.children(child, func(measure xml.StartElement) error { return in.measure(part, measure, measure) })
	case "measure":
		if !timewise {
			return failed(in.line(), "a <measure> stands outside the parts of a partwise score")
		}
		return in.children(child, func(inner xml.StartElement) error {
			part, err := in.part(inner)
			if err != nil {
				return err
			}
			return in.measure(part, child, inner)
		})
	}
	return in.skip(child)
}

// partList reads one child of the part list.
func (in *reading) partList(child xml.StartElement) error {
	if child.Name.Local != "score-part" {
		return in.skip(child)
	}
	e, err := in.tree(child)
	if err != nil {
		return err
	}
	id := e.get("id")
	part := &readPart{id: id, name: cmp.Or(e.kidText("part-name"), id), short: e.kidText("part-abbreviation"), state: newState()}
	if part.id == "" {
		return failed(e.line, "a <score-part> has no id")
	}
	if in.byID[part.id] != nil {
		return failed(e.line, "the part id %q is given twice", part.id)
	}
	for _, k := range e.kids {
		if k.name == "score-instrument" {
			part.instruments = append(part.instruments, readInstrument{id: k.get("id"),
				Instrument: heard.Instrument{Name: k.kidText("instrument-name"), Sound: k.kidText("instrument-sound")}})
		}
	}
	for _, k := range e.kids {
		if k.name != "midi-instrument" {
			continue
		}
		key, program := midiNumber(k.kidText("midi-unpitched")), midiNumber(k.kidText("midi-program"))
		for i := range part.instruments {
			if in := &part.instruments[i]; in.id == k.get("id") {
				in.midi, in.Program = cmp.Or(key, in.midi), cmp.Or(int(program), in.Program)
			}
		}
	}
	in.byID[part.id] = part
	in.parts = append(in.parts, part)
	return nil
}

// midiNumber reads a number from 1 to 128, 0 for anything else.
func midiNumber(text string) uint8 {
	if n, whole := wholeNumber(text); whole && n <= 128 {
		return uint8(n)
	}
	return 0
}

// part returns the part that a <part> element continues.
func (in *reading) part(start xml.StartElement) (*readPart, error) {
	if start.Name.Local != "part" {
		return nil, failed(in.line(), "<%s> stands where a <part> is expected", start.Name.Local)
	}
	id := attribute(start.Attr, "id")
	part := in.byID[id]
	if part == nil {
		return nil, failed(in.line(), "the part %q is not in the part list", id)
	}
	return part, nil
}
