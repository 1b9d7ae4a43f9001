package musicxml

import (
	"fmt"
	"strconv"

	"github.com/beevik/etree"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// encoder turns what stands on the sheet into elements. It keeps the first
// error: elements made after it are of no use.
type encoder struct {
	sheet   *sheet.Sheet
	part    *sheet.Part
	index   int // of the part
	options Options
	err     error
}

// text returns s if a document can hold it and notes the error otherwise.
func (e *encoder) text(what, s string) string {
	if err := checkText(what, s); err != nil && e.err == nil {
		e.err = err
	}
	return s
}

// checkText fails for a character that XML 1.0 does not allow even as a
// reference, and for bytes that are no UTF-8.
func checkText(what, s string) error {
	for i, r := range s {
		allowed := r == '\t' || r == '\n' || r == '\r' ||
			r >= 0x20 && r <= 0xD7FF || r >= 0xE000 && r <= 0xFFFC || r >= 0x10000 && r <= 0x10FFFF
		if r == 0xFFFD && s[i:min(i+3, len(s))] == "\uFFFD" {
			allowed = true // written so, not a broken byte
		}
		if !allowed {
			return fmt.Errorf("%s: character %d (U+%04X) cannot stand in an XML document", what, len([]rune(s[:i]))+1, r)
		}
	}
	return nil
}

// elem makes an element with children in the order given; nil children are
// left out.
func elem(tag string, children ...*etree.Element) *etree.Element {
	e := etree.NewElement(tag)
	for _, c := range children {
		if c != nil {
			e.AddChild(c)
		}
	}
	return e
}

// leaf makes an element that holds only text.
func leaf(tag, text string) *etree.Element {
	e := etree.NewElement(tag)
	e.SetText(text)
	return e
}

// number makes an element that holds a whole number.
func number(tag string, n int) *etree.Element { return leaf(tag, strconv.Itoa(n)) }

// ticks makes an element that holds a time in divisions.
func ticks(tag string, t beat.Time) *etree.Element { return leaf(tag, strconv.FormatInt(int64(t), 10)) }

// with adds attributes, given as names and values in turn.
func with(e *etree.Element, attributes ...string) *etree.Element {
	for i := 0; i < len(attributes); i += 2 {
		e.CreateAttr(attributes[i], attributes[i+1])
	}
	return e
}

// when returns e if the condition holds and else nil, which elem leaves out.
func when(condition bool, e *etree.Element) *etree.Element {
	if condition {
		return e
	}
	return nil
}

// typeNames are the note types from the whole note down, by layout.Value.Power.
var typeNames = [...]string{"whole", "half", "quarter", "eighth", "16th", "32nd", "64th", "128th"}

// partID returns the id of the part with the given index.
func partID(index int) string { return "P" + strconv.Itoa(index+1) }

// instrumentID returns the id of a sound of the part, counted from 1.
func instrumentID(part, sound int) string { return partID(part) + "-I" + strconv.Itoa(sound) }
