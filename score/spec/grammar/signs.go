package grammar

import (
	"slices"
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
		case c == '=' && len(signs) > 0 && signs[len(signs)-1] == score.SignRest:
			return nil, Wrong(i, "write . or x there", "a hold after a rest has nothing to hold")
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
	return signs, nil
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
	if !slices.Contains(signs, score.SignAttack) {
		return nil, Wrong(0, "put at least one x in it", "nothing is struck")
	}
	return signs, nil
}

// BoxGroups returns the groups of a box without stated ones: from attack to
// attack; what comes before the first attack is a silent group.
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
