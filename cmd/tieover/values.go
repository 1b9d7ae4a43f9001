package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"tieover/score/spec"
)

// textFlag is a flag whose text is read by a function.
type textFlag struct {
	kind string // for the help
	text string // as given, or the default
	read func(text string) error
}

func (f *textFlag) Type() string   { return f.kind }
func (f *textFlag) String() string { return f.text }

func (f *textFlag) Set(text string) error {
	err := f.read(text)
	if err == nil {
		f.text = text
	}
	return err
}

// addChoice registers a flag that takes one of a few words, which are in the order of
// the values of T; the first is the default.
func addChoice[T ~int](flags *pflag.FlagSet, into *T, name, about string, words ...string) {
	all := strings.Join(words, ", ")
	flags.Var(&textFlag{"word", words[0], func(word string) error {
		i := slices.Index(words, word)
		if i < 0 {
			return fmt.Errorf("%q is none of %s", word, all)
		}
		*into = T(i)
		return nil
	}}, name, about+" ("+all+")")
}

// bars is a range of bars; the zero value is all of them.
type bars struct{ from, to int } // 0: open

var barsText = regexp.MustCompile(`^(?:(0|[1-9][0-9]{0,8})|(0|[1-9][0-9]{0,8})?-(0|[1-9][0-9]{0,8})?)$`)

// barsFlag reads 5, 5-12, 5- and -12.
func barsFlag(into *bars) *textFlag {
	return &textFlag{kind: "bars", read: func(text string) error {
		m := barsText.FindStringSubmatch(text)
		if m == nil || text == "-" {
			return errors.New("write 5, 5-12, 5- or -12")
		}
		if slices.Contains(m[1:], "0") {
			return errors.New("bars count from 1; -12 has a pickup too")
		}
		from, _ := strconv.Atoi(m[1] + m[2])
		to, _ := strconv.Atoi(m[1] + m[3])
		if to > 0 && from > to {
			return fmt.Errorf("the end, bar %d, comes before bar %d; write %d-%d", to, from, to, from)
		}
		*into = bars{from, to}
		return nil
	}}
}

// list is a flag of words joined by commas. What is given replaces the default; given
// again, it is added.
type list struct {
	into  *[]string
	given bool
}

func (l *list) Type() string   { return "list" }
func (l *list) String() string { return strings.Join(*l.into, ",") }

func (l *list) Set(text string) error {
	words, err := splitNames(text)
	if err != nil {
		return err
	}
	if l.given {
		words = append(*l.into, words...)
	}
	*l.into, l.given = words, true
	return nil
}

// splitNames divides a text at its commas. Blanks around a name do not count, and a
// name with a comma is put in quotation marks.
func splitNames(text string) ([]string, error) {
	row := csv.NewReader(strings.NewReader(text))
	row.LazyQuotes, row.TrimLeadingSpace = true, true
	rows, err := row.ReadAll()
	if err != nil || len(rows) != 1 {
		return nil, fmt.Errorf("write words joined by commas, on one line")
	}
	for i, word := range rows[0] {
		rows[0][i] = spec.Name(word)
	}
	return rows[0], nil
}

// millimeterFlag reads a length in mm with up to two decimals, kept in 1/100 mm.
func millimeterFlag(into *int) *textFlag {
	return &textFlag{kind: "mm", read: func(text string) error {
		whole, part, _ := strings.Cut(text, ".")
		if len(part) > 2 {
			return fmt.Errorf("%q has more than two decimals", text)
		}
		n, err := strconv.Atoi(whole + (part + "00")[:2])
		if err != nil || n < 0 {
			return fmt.Errorf("%q is no length in millimeters", text)
		}
		*into = n
		return nil
	}}
}
