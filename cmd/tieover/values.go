package main

import (
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"tieover/score/beat"
	"tieover/score/spec"
)

// bars is a flag such as 5-12, 5- or 7; the zero value is all bars.
type bars struct{ from, to int } // 0: open

func (r *bars) Type() string { return "bars" }

func (r *bars) String() string {
	if r.from == 0 && r.to == 0 {
		return ""
	}
	return fmt.Sprintf("%d-%d", r.from, r.to)
}

func (r *bars) Set(s string) (err error) {
	r.from, r.to, err = barRange(s)
	return err
}

// list is a flag of words joined by commas; blanks around a word do not count,
// and a word with a comma stands in quotation marks. What is given replaces
// what stands in it by default; given again, it grows.
type list struct {
	into  *[]string
	given bool
}

func (l *list) Type() string { return "list" }

func (l *list) String() string {
	if l.into == nil {
		return ""
	}
	return strings.Join(*l.into, ",")
}

func (l *list) Set(s string) error {
	row := csv.NewReader(strings.NewReader(s))
	row.LazyQuotes, row.TrimLeadingSpace = true, true
	rows, err := row.ReadAll()
	if err != nil || len(rows) != 1 {
		return fmt.Errorf("write words joined by commas, on one line")
	}
	words := rows[0]
	for i, word := range words {
		words[i] = spec.Name(word)
	}
	if l.given {
		words = append(*l.into, words...)
	}
	*l.into, l.given = words, true
	return nil
}

// millimeters is a flag in mm with up to two decimals, kept in 1/100 mm.
type millimeters struct{ into *int }

func (m *millimeters) Type() string { return "mm" }

func (m *millimeters) String() string {
	if m.into == nil || *m.into == 0 {
		return ""
	}
	return beat.Of(int64(*m.into), 100).String()
}

func (m *millimeters) Set(s string) error {
	whole, part, _ := strings.Cut(s, ".")
	if len(part) > 2 {
		return fmt.Errorf("%q has more than two decimals", s)
	}
	n, err := strconv.Atoi(whole + (part + "00")[:2])
	if err != nil || n < 0 {
		return fmt.Errorf("%q is no length in millimeters", s)
	}
	*m.into = n
	return nil
}
