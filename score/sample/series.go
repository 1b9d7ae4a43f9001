package sample

import (
	"slices"
	"strings"
)

func (w *writer) strikes(groups bool) {
	if groups && w.often(2, "strike") {
		w.line("    strike: %s", w.one("strike", []string{"hold", "short", "all"}))
	}
	if w.often(4, "accent") {
		w.line("    accent: %s", w.one("accent", []string{"none", "group", "all"}))
	}
	if w.has(Percussion) && w.often(3, "touches") {
		w.line("    touches: %s", w.one("touches", []string{"plain staccato", "tenuto", "accent+staccato plain ghost+tenuto", "marcato ghost plain", "accent", "roll", "tremolo plain trill+accent", "flam plain", "drag+accent roll"}))
	}
}

// series writes pitches for instruments that need or may have them.
func (w *writer) series(l *layer) {
	if l.on.pitches == nil {
		return
	}
	one := func() string {
		var all []string
		from := l.on.pitches
		if w.has(Series) {
			from = append(slices.Clone(from), l.on.chords...)
		}
		most := 4
		if w.has(Series) && !w.home {
			most = 9
		}
		for range w.number("pitches", 1, most) {
			next := w.one("pitch", from)
			if w.has(Ornaments) && w.often(6, "grace note") {
				next = w.one("grace", l.on.pitches) + "/" + next
			}
			all = append(all, next)
		}
		return strings.Join(all, " ")
	}
	if !w.has(Series) {
		w.line("    pitches: %s", one())
		return
	}
	restarts := []string{"cycle", "realignment", "never"}
	if w.often(3, "list of series") {
		if w.often(3, "series by realignment") {
			w.line("    pitches: {realignment: [%s, %s]}", one(), one())
		} else {
			w.line("    pitches: [%s, %s]", one(), one())
		}
		restarts = restarts[:2]
	} else {
		w.line("    pitches: %s", one())
	}
	if !w.often(3, "default restart") {
		w.line("    restart: %s", w.one("restart", restarts))
	}
}

// freeLine writes a layer without cycles.
func (w *writer) freeLine(l *layer) {
	var notes []string
	for range w.number("notes", 2, 8) {
		what := "rest"
		if !w.often(4, "rest") {
			what = "x"
			if l.on.pitches != nil {
				what = w.one("pitch", l.on.pitches)
			}
		}
		lengths := []string{"1", "2", "3"}
		if !l.tuplet {
			lengths = append(lengths, "1/8", "quarter", "dotted quarter", "1/16")
		}
		notes = append(notes, what+" "+w.one("length", lengths))
	}
	w.line("    line: %s", strings.Join(notes, ", "))
	if w.pickup && (l.tuplet || !w.early) {
		w.line("    enters: bar 1")
	}
}
