package page

import (
	"fmt"
	"strings"
)

// inks is how many colors tell layers apart; the style sheet names them. More
// layers than that differ by the pattern of their beams.
const inks = 3

// look is how a layer differs from the others, beside its letter and name.
type look struct {
	ink  int    // class ink0, ink1 …
	dash string // stroke-dasharray of its beams; "" for a solid line
}

func lookOf(layer int) look { return look{layer % inks, dashes(layer / inks)} }

// dashes returns the nth beam pattern; all differ.
func dashes(n int) string {
	switch n {
	case 0:
		return ""
	case 1:
		return "7 3"
	case 2:
		return "2 2"
	}
	return "9 2" + strings.Repeat(" 2 2", n-2)
}

func (l look) class() string { return fmt.Sprintf("ink%d", l.ink) }
func (l look) hit() string   { return "hit " + l.class() }
func (l look) ghost() string { return "ghost " + l.class() }

func (l look) pattern() string {
	if l.dash == "" {
		return ""
	}
	return fmt.Sprintf(` stroke-dasharray="%s"`, l.dash)
}
