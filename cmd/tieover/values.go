package main

import (
	"fmt"
	"strconv"
	"strings"

	"tieover/score/beat"
)

// barRange is a flag such as 5-12 or 7; the zero value is all bars.
type barRange struct{ from, to int }

func (r *barRange) Type() string { return "bars" }

func (r *barRange) String() string {
	if r.from == 0 {
		return ""
	}
	return fmt.Sprintf("%d-%d", r.from, r.to)
}

func (r *barRange) Set(s string) error {
	first, last, ranged := strings.Cut(s, "-")
	if !ranged {
		last = first
	}
	from, err1 := strconv.Atoi(first)
	to, err2 := strconv.Atoi(last)
	if err1 != nil || err2 != nil || from < 1 || to < from {
		return fmt.Errorf("%q is no range of bars, such as 5-12", s)
	}
	r.from, r.to = from, to
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
