package found

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/heard"
	"tieover/score/process"
)

// entries are those of a layer.
type entries struct{ strings.Builder }

func (e *entries) add(key, value string) { e.WriteString(foldEntry("    "+key+": ", value)) }

func (e *entries) addStrike(s find.Strike) {
	switch s {
	case find.Short:
		e.add("strike", "short")
	case find.All:
		e.add("strike", "all")
	}
}

// addBeginning says how many pulses a layer is late, and whether these count from the
// pickup.
func (e *entries) addBeginning(late int64, early bool) {
	if early {
		e.add("enters", "pickup")
	}
	if late > 0 {
		e.add("offset", strconv.FormatInt(late, 10))
	}
}

// addPitches writes a series; endless is whether it does not start over with each cycle.
func (e *entries) addPitches(series string, endless bool) {
	e.add("pitches", series)
	if endless {
		e.add("restart", "never")
	}
}

// listText writes what a spec takes in turn.
func listText(texts []string) string { return "[" + strings.Join(texts, ", ") + "]" }

// addProcess writes the processes of a loop, if it has any.
func (e *entries) addProcess(s *find.Stretch) {
	if len(s.Process) == 0 {
		return
	}
	texts := make([]string, len(s.Process))
	for i := range s.Process {
		texts[i] = ruleText(&s.Process[i], s.Spent)
		if s.Reset > 0 {
			texts[i] = strings.TrimSuffix(texts[i], "}") + ", until: realignment}"
		}
	}
	text := listText(texts)
	if len(texts) == 1 {
		text = texts[0]
	}
	e.add("process", text)
}

// ruleText writes a process; spent is whether its growth comes to its end.
func ruleText(p *process.Rule, spent bool) string {
	after := ""
	if p.After > 1 {
		after = fmt.Sprintf(", after: %d", p.After)
	}
	switch p.Kind {
	case process.Grow:
		from := "none"
		if p.From > 0 {
			from = strconv.Itoa(p.From)
		}
		if spent {
			after += ", stop-when-empty: yes"
		}
		return fmt.Sprintf("{grow: {group: %d, by: %d, from: %s%s}}", p.Group, p.By, from, after)
	case process.Rotate:
		return fmt.Sprintf("{rotate: {by: %d%s}}", p.By, after)
	case process.Shift:
		return fmt.Sprintf("{shift: {by: %d%s}}", p.By, after)
	case process.Append:
		return fmt.Sprintf("{append: {size: %d%s}}", p.Size, after)
	}
	if p.After == 2 {
		return "{retrograde: {on: even}}"
	}
	return fmt.Sprintf("{retrograde: {on: every %s}}", beat.Ordinal(int64(p.After)))
}

// foldEntry writes one entry, going on in further lines where it is long.
func foldEntry(key, value string) string {
	const width = 96
	var b strings.Builder
	b.WriteString(key)
	column := len(key)
	for i, word := range strings.Split(spacePluses(value), " ") {
		switch {
		case i == 0:
		case column+1+len(word) > width:
			b.WriteString("\n      ")
			column = 6
		default:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += len(word)
	}
	b.WriteByte('\n')
	return b.String()
}

// spacePluses puts blanks round the + of long groupings, so that they can be
// folded.
func spacePluses(value string) string {
	if len(value) <= 80 || strings.ContainsAny(value, "ABCDEFG{,") {
		return value
	}
	return strings.ReplaceAll(value, "+", " + ")
}

var plainName = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9 '.()-]*$`)

// yamlWord matches the words that YAML 1.1 or 1.2 takes for something else than
// text (YAML 1.2, 10.3.2; YAML 1.1 types null and bool).
var yamlWord = regexp.MustCompile(`(?i)^(null|true|false|yes|no|on|off|y|n)$`)

// quote writes a name so that YAML reads it as text.
func quote(name string) string {
	if plainName.MatchString(name) && !yamlWord.MatchString(name) && strings.TrimSpace(name) == name {
		return name
	}
	return strconv.Quote(name)
}

// sharps spells the twelve keys of an octave.
var sharps = strings.Fields("C C# D D# E F F# G G# A A# B")

// spellTone names a tone as a spec does, a pitch that it cannot spell, with three
// flats or as a B sharp below its lowest octave, by its key.
func spellTone(t heard.Tone) string {
	key, _ := t.Key()
	if t.Step == 0 || t.Alter >= -2 && t.Alter <= 2 && t.Octave >= -1 && t.Octave <= 9 {
		return t.String()
	}
	return sharps[key%12] + strconv.Itoa(key/12-1)
}
