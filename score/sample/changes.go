package sample

// entry lets a layer come late, leave early or begin inside its cycle.
func (w *writer) entry(l *layer, plain bool) {
	if w.early && plain && w.often(2, "in the pickup") {
		w.line("    enters: pickup")
		return
	}
	if w.often(3, "offset") {
		least := -3
		if w.pickup && !w.early { // an earlier cycle would begin in the pickup
			least = 1
		}
		w.line("    offset: %d", w.number("offset", least, 4))
	}
	if w.number("enters", 1, 8) <= 4+w.until { // only realignments can show entries at them
		l.runs = false
		places := []string{"bar 2"}
		if plain {
			places = append(places, "pulse 3", "pulse 4")
		}
		if w.bars >= 8 {
			places = append(places, "bar 3 beat 2", "bar 4", "cycle 2")
			if !plain {
				places = []string{"bar 2", "bar 3", "cycle 2"}
			}
		}
		if w.until > 0 {
			places = []string{"pulse 2", "cycle 1", "realignment 1", "realignment 1", "realignment 1", "realignment 1", "realignment 1", "realignment 1", "realignment 1"}
			if !plain {
				places = []string{"cycle 1"}
			}
		}
		place := w.one("enters", places)
		w.line("    enters: %s", place)
		if place == "cycle 2" {
			return // which may be later than the layer would leave
		}
	}
	if w.often(2, "leaves") {
		l.runs = false
		switch {
		case w.until > 0:
			w.line("    leaves: realignment %d", w.until)
		case w.bars >= 8:
			places := []string{"bar 7", "bar 8"}
			if plain {
				places = append(places, "bar 7 beat 2")
			}
			w.line("    leaves: %s", w.one("leaves", places))
		}
	}
}

// process writes one process or two.
func (w *writer) process(l *layer) {
	until := ""
	if w.often(2, "until") {
		until = w.one("until", []string{", until: realignment", ", until: realignment", ", until: never"})
	}
	if !w.often(2, "two processes") {
		w.line("    process: {%s%s}", w.change(l), until)
		return
	}
	w.line("    process:")
	for range 2 {
		w.line("      - {%s%s}", w.change(l), until)
	}
}

// change writes one process. Donors may run dry: then they hold.
func (w *writer) change(l *layer) string {
	after := ""
	if w.often(3, "after") {
		after = w.one("after", []string{", after: 2", ", after: 3"})
	}
	kinds := []string{"grow", "grow", "grow", "rotate", "rotate", "shift", "shift", "retrograde", "retrograde", "retrograde", "append", "append"}
	if l.box {
		kinds = kinds[3:10]
	}
	switch w.one("process", kinds) {
	case "grow":
		from := "2"
		if w.often(2, "from none") {
			from = "none"
		}
		by := w.one("by", []string{"1", "2"})
		if from != "none" && w.often(2, "shrinks") {
			by = "-1"
		}
		return "grow: {group: 1, by: " + by + ", from: " + from + ", stop-when-empty: yes" + after + "}"
	case "rotate":
		return "rotate: {by: " + w.one("by", []string{"1", "2", "-1"}) + after + "}"
	case "shift":
		return "shift: {by: " + w.one("by", []string{"1", "-1", "2", "-3"}) + after + "}"
	case "retrograde":
		return "retrograde: {on: " + w.one("on", []string{"even", "every 3rd"}) + "}"
	}
	return "append: {size: " + w.one("size", []string{"1", "2", "3"}) + after + "}"
}

// except lets a cycle or a bar deviate.
func (w *writer) except(l *layer) {
	w.line("    except:")
	switch w.number("cycle", 1, 4) {
	case 1:
		w.line("      - {cycle: 2, rest: yes}")
	case 2:
		w.line("      - {cycle: 1, groups: %s}", groups(w.sizes()))
	case 3:
		w.line("      - {cycle: 3, box: x.xx=.}")
	case 4:
		if l.on.pitches != nil {
			w.line("      - {cycle: 2, pitches: %s}", w.one("pitch", l.on.pitches))
		} else {
			w.line("      - {cycle: 2, groups: 3, rest: no}")
		}
	}
	if w.until == 0 && w.often(2, "bar") {
		deviations := []string{"rest: yes", "groups: 2+1", "groups: 3"}
		if l.on.pitches != nil {
			deviations = append(deviations, "pitches: "+w.one("pitch", l.on.pitches))
		}
		w.line("      - {bar: %d, %s}", w.number("bar", 2, w.bars), w.one("deviation", deviations))
	}
}

// plan writes what happens at structural moments.
func (w *writer) plan() {
	if !w.has(Plans) {
		return
	}
	var entries []string
	add := func(text string) { entries = append(entries, text) }
	first := w.layers[0].name
	if w.often(2, "mark at the start") {
		add("{at: bar 1, mark: M1" + w.suffix() + ", text: " + w.one("text", texts) + "}")
	}
	if w.pickup && w.often(2, "text in the pickup") {
		add("{at: pickup, text: before}")
	}
	if w.pickup && w.often(2, "dynamic in the pickup") {
		add("{at: pickup, dynamic: p, hairpin: crescendo, to: bar 1}")
	}
	if w.often(2, "dynamic") {
		add("{at: pulse 1, dynamic: mp, for: [" + first + "]}")
	}
	if w.often(20, "text for some") {
		add("{at: pulse 2, text: lightly, chord: C, for: " + first + "}")
	}
	if l := w.layers[0]; (l.core || l.runs) && w.often(5, "at an attack") { // others may have none
		add("{at: " + plainName(first) + " attack 1, text: here}")
	}
	if l := w.layers[0]; l.core && l.on.clefs != nil && !l.cut && !w.home { // then it may strike but once
		add("{at: " + plainName(first) + " attack 1, slur: yes, to: " + plainName(first) + " attack 2}")
	}
	if w.often(20, "technique") {
		add("{at: pulse 3, text: " + w.one("technique", []string{"pizz.", "con sord.", "harmon mute", "solo"}) + "}")
	}
	if w.often(2, "chord") {
		add("{at: bar 1, chord: " + w.one("chord", []string{"Dm7", "F#m7/E", "N.C."}) + "}")
	}
	if w.until > 0 {
		add("{at: realignment 1, mark: M2" + w.suffix() + ", tempo: " + w.one("tempo", tempi) + "}")
		if !w.home && w.often(2, "cycle") {
			add("{at: " + plainName(first) + " cycle 2, text: again}")
		}
	}
	if w.bars >= 8 {
		if w.often(20, "written") {
			add("{at: bar 2, written: " + w.one("written", []string{"rhythm", "slashes", "repeats", "notes"}) + w.one("until", []string{"", ", to: bar 4"}) + "}")
		}
		if w.often(2, "hairpin") {
			add("{at: bar 2, hairpin: " + w.one("hairpin", []string{"crescendo", "diminuendo"}) + ", to: bar 4}")
		}
		if w.often(2, "tempo change") {
			add("{at: bar 3 beat 2, tempo: " + w.one("tempo", tempi) + "}")
		}
		if w.often(5, "fermata") {
			add("{at: bar 6 beat 2, fermata: yes}")
		}
		if w.often(5, "gradual tempo") {
			add("{at: bar 5, tempo: " + w.one("gradual", []string{"rit.", "rall.", "accel."}) + ", to: " + w.one("end", []string{"bar 6", "bar 7", "bar 6 beat 2"}) + "}")
			add("{at: bar 7, tempo: " + w.one("after", []string{"a tempo", "Lively 120", "96"}) + "}")
		}
		if w.often(20, "key change") {
			add("{at: bar 4, key: " + w.one("key", []string{"Eb major", "F# minor", "2 sharps", "none"}) + "}")
		}
		if clefs := w.layers[0].on.clefs; clefs != nil && w.often(4, "clef change") {
			add("{at: bar 3, clef: " + w.one("clef", clefs) + ", for: " + first + "}")
		}
		if w.often(3, "meter change") {
			add("{at: bar 5, meter: " + w.one("meter", []string{"3/4", "7/8", "2+3/8", "[2/4, 3/4]"}) + "}")
		}
	}
	if len(entries) == 0 {
		return
	}
	w.line("plan:")
	for _, e := range entries {
		w.line("  - %s", e)
	}
}

var tempi = []string{"72", "dotted quarter = quarter", "quarter = half", "triplet quarter = quarter", "quarter+sixteenth = quarter", "quintuplet sixteenth = sixteenth"}

// suffix keeps marks of several sections apart.
func (w *writer) suffix() string {
	if len(w.name) == 1 && w.name != "9" {
		return w.name
	}
	return ""
}

// plainName is a layer's name inside a place, where nothing is quoted.
func plainName(name string) string {
	if name[0] == '"' {
		return name[1 : len(name)-1]
	}
	return name
}
