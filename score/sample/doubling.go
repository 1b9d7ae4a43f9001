package sample

// doubling writes the layers of a player who changes instruments, back perhaps to the
// first, in some sections that have the bars for it.
func (w *writer) doubling() {
	if !w.has(Entries) || w.bars <= 2 || !w.often(2, "doubling") {
		return
	}
	name := func(name, key string) {
		w.line("  - name: %s", name)
		w.line("    player: Reeds")
		w.line("    instrument: %s", key)
		w.line("    pulse: 1/8")
		w.line("    groups: %s", w.one("groups", []string{"3+2", "4+2+1", "2+rest 3", "5"}))
	}
	name("Reed one", "flute")
	w.line("    pitches: %s", w.one("pitches", []string{"C5 E5", "G5", "F#5 Bb4"}))
	w.line("    leaves: bar %d", w.number("leaves", 2, 4))
	second := w.number("enters", 4, 6)
	if w.often(2, "struck") {
		name("Reed ring", "triangle")
	} else {
		name("Reed two", "alto saxophone")
		w.line("    pitches: %s", w.one("pitches", []string{"E4 G4", "A4 C#4 Eb4"}))
	}
	w.line("    enters: bar %d", second)
	if w.often(2, "back") {
		w.line("    leaves: bar %d", second+1)
		name("Reed three", "flute")
		w.line("    pitches: D5 C5")
		w.line("    enters: bar %d", w.number("back", second+1, 8))
	}
}
