package spec

import (
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score/beat"
	"tieover/score/instrument"
	"tieover/score/spec/grammar"
)

// reportUnknown reports a key that a map does not have. meant is the key that it may
// stand for, "" when that is open, and sure says that it is only misspelled.
func (r *reader) reportUnknown(key, value *yaml.Node, what string, names []string, flow bool) (meant string, sure bool) {
	if r.full() {
		return "", false
	}
	name := key.Value
	if flow && isNull(value) {
		if at := strings.Index(name, ":"); at > 0 && at < len(name)-1 {
			r.wrong(r.at(key), "write "+name[:at]+": "+name[at+1:], "a space is missing after the colon of %q", grammar.Shortened(name))
			return name[:at], false
		}
		r.wrong(r.at(key), "quote text that has a comma; names stand in [A, B]", "%q is no key of %s and has no value", grammar.Shortened(name), what)
		return "", false
	}
	hint := "known keys are " + strings.Join(names, ", ")
	if name == "sections" && what == "the section" {
		hint = "one file is one section: write one for each, and give them to one command in their order"
	} else if now, renamed := renamedKeys()[name]; renamed && slices.Contains(names, now) {
		hint, meant = "did you mean "+now+"?", now
	} else if near := instrument.Nearest(strings.Trim(name, "-_ "), names); len(near) > 0 {
		hint, meant, sure = "did you mean "+beat.Listed(near, "or")+"?", near[0], len(near) == 1 && !strings.Contains(name, " ")
	} else if owners := havers(name); len(owners) > 0 {
		hint = name + " is a key of " + beat.Listed(owners, "or")
	}
	r.wrong(r.at(key), hint, "unknown key %q in %s", grammar.Shortened(name), what)
	return meant, sure
}

// havers lists the maps that have a key.
func havers(name string) []string {
	var owners []string
	for _, table := range KeyTables() {
		if slices.Contains(table.Keys, name) {
			owners = append(owners, table.called)
		}
	}
	return owners
}

// example shows what a map looks like, by what messages call it.
func example(called string) string {
	for _, table := range KeyTables() {
		if table.called == called {
			return table.example
		}
	}
	return ""
}

// renamedKeys are words that people try for our keys.
func renamedKeys() map[string]string {
	return map[string]string{
		"bpm": "tempo", "time": "meter", "time-signature": "meter", "signature": "meter", "unit": "pulse",
		"notes": "pitches", "series": "pitches", "sounds": "pitches", "pattern": "groups", "grouping": "groups", "cycle": "groups",
		"rhythm": "box", "voices": "layers", "tracks": "layers", "parts": "layers", "staves": "layers",
		"abbreviation": "short", "every": "after", "reverse": "retrograde", "add": "append",
		"articulation": "touches", "articulations": "touches", "exceptions": "except", "processes": "process",
		"start": "enters", "stop": "leaves", "delay": "offset", "lyric": "lyrics", "tablature": "tab", "strings": "tuning", "verses": "lyrics", "words": "text", "amount": "by",
		"duration": "length", "repeat": "end", "place": "at", "volume": "dynamic",
	}
}

// renamedWords are words that people try for values of ours.
func renamedWords() map[string]string {
	return map[string]string{
		"fill": "all", "cut at barlines": "cut", "tie": "tied", "sustain": "hold", "staccato": "short", "yes": "group",
		"cresc.": "crescendo", "decresc.": "diminuendo", "decrescendo": "diminuendo", "dim.": "diminuendo", "<": "crescendo", ">": "diminuendo",
		"piano": "p", "forte": "f", "mezzo piano": "mp", "mezzo-piano": "mp", "mezzo forte": "mf", "mezzo-forte": "mf",
		"pianissimo": "pp", "fortissimo": "ff", "sforzando": "sfz", "sforzato": "sfz", "loop": "repeat",
	}
}
