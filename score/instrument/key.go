package instrument

import "strings"

// flats are the ways in which people type the flat of a key, longest first where
// one begins another.
var flats = []string{"♭", "-flat", " flat", "b"}

// KeyName says which tone a written C sounds: "C", "Bb", "F".
func (i *Instrument) KeyName() string {
	letters, sounding := "CDEFGAB", []int{0, 2, 4, 5, 7, 9, 11}
	step := (i.Diatonic%7 + 7) % 7
	name := letters[step : step+1]
	switch (i.Chromatic - sounding[step] + 24) % 12 {
	case 11:
		name += "b"
	case 1:
		name += "#"
	}
	return name
}

// NamesKey reports whether a name has its instrument's key in it:
// "Clarinet in B♭".
func NamesKey(name string) bool {
	_, _, ok := splitKey(normalize(name))
	return ok
}

// splitKey reads "Bb trumpet" or "clarinet in B flat", in lower case: the key
// and the name without it. ok is false where no key is named.
func splitKey(name string) (key, rest string, ok bool) {
	if before, after, found := strings.Cut(name, " in "); found {
		if key, left, ok := leadingKey(after); ok && left == "" {
			return key, before, true
		}
	}
	if key, rest, ok = leadingKey(name); ok && rest != "" {
		return key, rest, true
	}
	return "", "", false
}

// leadingKey reads a key at the start of a text, and the words after it.
func leadingKey(text string) (key, rest string, ok bool) {
	if text == "" || text[0] < 'a' || text[0] > 'g' {
		return "", "", false
	}
	key, rest = strings.ToUpper(text[:1]), text[1:]
	for _, flat := range flats {
		if after, found := strings.CutPrefix(rest, flat); found && (after == "" || after[0] == ' ') {
			key, rest = key+"b", after
			break
		}
	}
	if rest != "" && rest[0] != ' ' {
		return "", "", false
	}
	return key, strings.TrimSpace(rest), true
}

// base is an instrument's name without its key.
func base(name string) string {
	if _, rest, ok := splitKey(name); ok {
		return rest
	}
	return name
}

// InKeys returns what is called by the name in any key, where the name has a
// key in it: of "trumpet in D" the trumpets. They are as in the table.
func InKeys(name string) (called string, all []*Instrument) {
	_, rest, ok := splitKey(normalize(name))
	if !ok {
		return "", nil
	}
	if other, ok := aliases[rest]; ok {
		rest = other
	}
	for _, i := range table() {
		if !i.IsUnpitched() && base(i.Name) == rest {
			all = append(all, i)
		}
	}
	return rest, all
}

// inKey finds an instrument by its name and its key.
func inKey(name string) (*Instrument, bool) {
	key, _, _ := splitKey(name)
	_, all := InKeys(name)
	for _, i := range all {
		if i.KeyName() == key {
			return i, true
		}
	}
	return nil, false
}

// normalize writes a name in lower case, with single blanks.
func normalize(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }
