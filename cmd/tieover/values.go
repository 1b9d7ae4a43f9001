package main

import (
	"fmt"
	"strconv"
	"strings"

	"tieover/score/beat"
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
