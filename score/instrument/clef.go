package instrument

// clefs are those that a spec may name, in the order in which messages list them.
var clefs = []struct {
	name string
	clef Clef
}{
	{"treble", treble()},
	{"bass", bass()},
	{"alto", alto()},
	{"tenor", Clef{Sign: 'C', Line: 4}},
	{"treble 8", Clef{Sign: 'G', Line: 2, Octave: -1}},
}

// Clefs returns the names of the clefs that a spec may choose.
func Clefs() []string {
	var names []string
	for _, c := range clefs {
		names = append(names, c.name)
	}
	return names
}

// ClefOf returns the clef of a name that Clefs lists.
func ClefOf(name string) Clef {
	for _, c := range clefs {
		if c.name == name {
			return c.clef
		}
	}
	panic("instrument: no clef is called " + name)
}
