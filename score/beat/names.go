package beat

import "fmt"

// Terms is the family of names for note values.
type Terms int

const (
	American Terms = iota // quarter, eighth
	British               // crotchet, quaver
)

var names = map[Terms][]string{ // from the whole note down
	American: {"whole", "half", "quarter", "eighth", "sixteenth", "thirty-second", "sixty-fourth", "128th"},
	British:  {"semibreve", "minim", "crotchet", "quaver", "semiquaver", "demisemiquaver", "hemidemisemiquaver", "semihemidemisemiquaver"},
}

// NoteName returns the name of a plain or single-dotted note value: "quarter",
// "dotted eighth". ok is false for a length that no such sign has.
func NoteName(s Span, terms Terms) (name string, ok bool) {
	k, dots, ok := NoteValue(s)
	if !ok {
		return "", false
	}
	if dots == 1 {
		return "dotted " + names[terms][k], true
	}
	return names[terms][k], true
}

// NoteValue splits a length into its sign: 1/2^power of a whole note with 0 or
// 1 dots, power from 0 to 7. ok is false when no single sign has that length.
func NoteValue(s Span) (power, dots int, ok bool) {
	for k := 0; k <= 7; k++ {
		if s == Of(1, 1<<k) {
			return k, 0, true
		}
		if s == Of(3, 2<<k) {
			return k, 1, true
		}
	}
	return 0, 0, false
}

// ValueNamed returns the length that has a name in the given terms:
// "eighth", "dotted quarter".
func ValueNamed(name string, terms Terms) (s Span, ok bool) {
	for k, n := range names[terms] {
		switch name {
		case n:
			return Of(1, 1<<k), true
		case "dotted " + n:
			return Of(3, 2<<k), true
		}
	}
	return Span{}, false
}

// CountOf says n of a pulse in words: "2 eighths", "1 dotted quarter",
// "3 triplet eighths", "5 eighths in 5:4".
func CountOf(n int64, p Pulse, terms Terms) string { return fmt.Sprintf("%d %s", n, p.Name(n, terms)) }

// Name is what n of the pulse are called, as in CountOf: "eighths", "triplet eighth".
func (p Pulse) Name(n int64, terms Terms) string {
	name, ok := NoteName(p.Base, terms)
	if !ok {
		name = p.Base.String() + "-note"
	}
	if n != 1 && n != -1 {
		name = plural(name)
	}
	switch {
	case !p.IsTuplet():
		return name
	case p.Actual == 3 && p.Normal == 2:
		return "triplet " + name
	}
	return fmt.Sprintf("%s in %d:%d", name, p.Actual, p.Normal)
}

func plural(name string) string {
	if name == "half" || name == "dotted half" {
		return name[:len(name)-1] + "ves"
	}
	return name + "s"
}
