package musicxml

import (
	"cmp"
	"slices"
	"strings"

	"tieover/score/heard"
)

// note reads one <note>: its time always counts, its sound only if it is
// neither a rest nor a grace or cue note.
func (b *barReading) note(e *element) error {
	staff := staffOf(e)
	repeated := b.part.state.tabs[staff] // nothing is said of what another staff shows too
	if e.kid("grace") != nil {
		if !repeated {
			b.graces++
		}
		return nil
	}
	if b.notes++; b.notes > maxNotes {
		return failed(e.line, "more than %d notes", maxNotes)
	}
	length, err := b.duration(e)
	if err != nil {
		return err
	}
	at := b.now
	if e.kid("chord") != nil {
		if !b.begun {
			return failed(e.line, "a note joins a chord, but no note stands before it")
		}
		at = b.last
	} else {
		b.last, b.begun = b.now, true
		b.now += length
	}
	voice := b.voice(e.kidText("voice"))
	b.reach(voice, at+length)
	if e.kid("rest") != nil {
		return nil
	}
	if e.kid("cue") != nil {
		b.cues++
		return nil
	}
	if length == 0 {
		b.empty++
		return nil
	}
	note := readNote{at: at, length: length, voice: voice, staff: staff}
	if note.tone, err = b.tone(e, note.staff); err != nil {
		return err
	}
	note.tied, note.ties = tieEnds(e)
	note.accent, note.on = isAccented(e), b.playedOn(e)
	note.slash, note.beat = b.part.state.slashed(e, note.staff)
	if e.get("print-object") == "no" && !repeated {
		b.hidden++
	}
	b.bar.notes = append(b.bar.notes, note)
	return nil
}

// staffOf returns the staff of a note, 1 where none is said.
func staffOf(e *element) int { return staffNumber(e.kidText("staff"), 1) }

// voice returns the one copy that is kept of a voice's name; "1" is the
// standard's silent default.
func (b *barReading) voice(name string) string {
	name = cmp.Or(name, "1")
	state := &b.part.state
	if kept, ok := state.voices[name]; ok {
		return kept
	}
	state.voices[name] = name
	return name
}

// tieEnds reports whether a tie ends and begins at the note, said by either of
// the two elements that can say it.
func tieEnds(e *element) (ends, begins bool) {
	look := func(t *element) {
		switch t.get("type") {
		case "start":
			begins = true
		case "stop":
			ends = true
		case "continue":
			ends, begins = true, true
		}
	}
	for _, k := range e.kids {
		if k.name == "tie" {
			look(k)
		}
		if k.name == "notations" {
			for _, n := range k.kids {
				if n.name == "tied" {
					look(n)
				}
			}
		}
	}
	return ends, begins
}

func isAccented(e *element) bool {
	for _, k := range e.kids {
		if k.name != "notations" {
			continue
		}
		for _, n := range k.kids {
			if n.name == "articulations" && (n.kid("accent") != nil || n.kid("strong-accent") != nil) {
				return true
			}
		}
	}
	return false
}

// tone returns what the note sounds, its part's transposition undone.
func (b *barReading) tone(e *element, staff int) (heard.Tone, error) {
	if pitch := e.kid("pitch"); pitch != nil {
		return b.pitch(pitch, staff)
	}
	unpitched := e.kid("unpitched")
	if unpitched == nil {
		return heard.Tone{}, failed(e.line, "a <note> has neither a pitch nor a rest")
	}
	tone := heard.Tone{}
	if step := unpitched.kidText("display-step"); len(step) == 1 && strings.Contains("ABCDEFG", step) {
		tone.Shown = step + unpitched.kidText("display-octave")
	}
	id := ""
	if use := e.kid("instrument"); use != nil {
		id = use.get("id")
	}
	for _, sound := range b.part.instruments {
		if sound.id == id || id == "" && len(b.part.instruments) == 1 {
			tone.Name, tone.MIDI = sound.Name, sound.midi
			return tone, nil
		}
	}
	if id != "" {
		return tone, failed(e.line, "the instrument %q of a note is not in the part list", id)
	}
	return tone, nil
}

// playedOn returns which of the part's instruments plays the pitch of a note.
func (b *barReading) playedOn(e *element) int {
	use := e.kid("instrument")
	if use == nil || e.kid("pitch") == nil {
		return 0
	}
	return 1 + slices.IndexFunc(b.part.instruments, func(i readInstrument) bool { return i.id == use.get("id") })
}

// pitch reads a <pitch>. A pitch between the keys is kept by name.
func (b *barReading) pitch(e *element, staff int) (heard.Tone, error) {
	step := e.kidText("step")
	if len(step) != 1 || !strings.Contains("ABCDEFG", step) {
		return heard.Tone{}, failed(e.line, "the step %q is not a letter from A to G", step)
	}
	octave, ok := wholeNumber(e.kidText("octave"))
	if !ok || octave > 9 {
		return heard.Tone{}, failed(e.line, "the octave %q is not a number from 0 to 9", e.kidText("octave"))
	}
	top, bottom := int64(0), int64(1)
	if alter := e.kid("alter"); alter != nil {
		if top, bottom, ok = decimal(alter.text); !ok {
			return heard.Tone{}, failed(alter.line, "the alter %q is not a number of semitones", alter.text)
		}
	}
	if top%bottom != 0 || top/bottom < -3 || top/bottom > 3 {
		return heard.Tone{Name: step + e.kidText("octave") + " altered by " + e.kidText("alter")}, nil
	}
	tone := heard.Tone{Step: step[0], Alter: int8(top / bottom), Octave: int8(octave)}
	return b.part.state.shift(staff).sounding(tone), nil
}
