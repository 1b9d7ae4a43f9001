package grammar

import (
	"strings"
	"unicode"

	"tieover/score"
)

// parseSigns reads box notation: x attack, = hold, . rest; blanks are free.
func parseSigns(text string) ([]score.Sign, *Slip) {
	var signs []score.Sign
	for i, c := range text {
		switch {
		case unicode.IsSpace(c):
		case strings.ContainsRune("x=.", c):
			signs = append(signs, score.Sign(c))
		case c == 'X':
			return nil, Wrong(i, "write a small x", "%q is no sign of box notation", string(c))
		case c == '|':
			return nil, Wrong(i, "leave barlines out; blanks may divide the signs", "%q is no sign of box notation", string(c))
		case c == '-' || c == '_':
			return nil, Wrong(i, "write = for a hold and . for a rest", "%q is no sign of box notation", string(c))
		default:
			return nil, Wrong(i, "write x for an attack, = for a hold, . for a rest", "%q is no sign of box notation", string(c))
		}
	}
	if len(signs) == 0 {
		return nil, Wrong(0, "write x for an attack, = for a hold, . for a rest", "there are no signs")
	}
	for i, s := range signs {
		if i > 0 && s == score.SignHold && signs[i-1] == score.SignRest {
			return nil, Wrong(place(text, i), "write . or x there", "a hold after a rest has nothing to hold")
		}
	}
	return signs, nil
}

// place returns the byte offset of the nth sign, from 0.
func place(text string, n int) int {
	for i, c := range text {
		if unicode.IsSpace(c) {
			continue
		}
		if n == 0 {
			return i
		}
		n--
	}
	return 0
}

// Box reads a whole cycle.
func Box(text string) ([]score.Sign, *Slip) {
	signs, bad := parseSigns(text)
	if bad != nil {
		return nil, bad
	}
	if len(signs) > MaxPulses {
		return nil, Wrong(0, "use a longer pulse", "a box of more than %d pulses", MaxPulses)
	}
	for _, s := range signs {
		if s == score.SignAttack {
			return signs, nil
		}
	}
	return nil, Wrong(0, "put at least one x in it", "nothing is struck")
}

// BoxGroups returns the groups of a box without stated ones: from attack to
// attack; what stands before the first attack is a silent group.
func BoxGroups(signs []score.Sign) []score.Item {
	var items []score.Item
	for i, s := range signs {
		if s == score.SignAttack || i == 0 {
			items = append(items, score.Item{Blank: s != score.SignAttack})
		}
		items[len(items)-1].Size++
	}
	return items
}

// Figure reads the rhythm inside a group of the given size: as many signs
// as pulses, or a whole multiple.
func Figure(text string, size int) ([]score.Sign, *Slip) {
	signs, bad := parseSigns(text)
	if bad != nil {
		return nil, bad
	}
	switch {
	case signs[0] == score.SignHold:
		return nil, Wrong(0, "begin with x or .", "a figure cannot begin with a hold")
	case len(signs)%size != 0:
		return nil, Wrong(0, "write as many signs as pulses, or two, three … times as many",
			"%d signs do not divide a group of %d evenly", len(signs), size)
	case len(signs)/size > 16:
		return nil, Wrong(0, "use a shorter pulse", "more than 16 signs a pulse")
	}
	return signs, nil
}
