package sheet

import (
	"fmt"
	"strings"

	"tieover/score/instrument"
)

// Pitched reports whether the part reads pitches as it begins.
func (p *Part) Pitched() bool { return !p.Instrument.IsUnpitched() && p.Instrument.Lines != 1 }

// Doubles reports whether the player has several instruments.
func (p *Part) Doubles() bool { return len(p.Instruments) > 1 }

// All lists the player's instruments, in the order in which they are taken up.
func (p *Part) All() []*instrument.Instrument {
	if p.Instruments == nil {
		return []*instrument.Instrument{p.Instrument}
	}
	return p.Instruments
}

// InstrumentIn returns the instrument that the player holds in a bar.
func (p *Part) InstrumentIn(m *Measure) *instrument.Instrument {
	if m.Instrument == nil {
		return p.Instrument
	}
	return m.Instrument
}

// DrumOf returns the sound of an unpitched head, a bare one being the first of its
// instrument. Where a part has five lines for another instrument's sake, the sounds
// of a single line stand around the middle one.
func (p *Part) DrumOf(m *Measure, h *Head) instrument.Drum {
	i := p.InstrumentIn(m)
	d := i.Drums[max(1, h.Drum)-1]
	if i.Lines == 1 && p.Staves[0].Lines > 1 {
		const up = 4 // from the lowest line to the middle one, in steps
		d.Step, d.Octave = StepAt(Steps(d.Step, d.Octave) + up)
	}
	return d
}

// Plays says what stands under the player's name: how the part transposes, "in B♭", how
// its strings are tuned, if not as usual, or of several instruments, or the one that an
// excerpt has left of them, what they are and how each transposes; "" where there is
// nothing to say, or the name says it.
func (p *Part) Plays() string {
	if text := p.tuned(); text != "" {
		return text
	}
	if p.Instruments == nil {
		return p.inKey(p.Instrument, p.Name)
	}
	var all []string
	for _, i := range p.Instruments {
		all = append(all, strings.TrimSpace(i.Label+" "+p.inKey(i, i.Label)))
	}
	return strings.Join(all, ", ")
}

func (p *Part) inKey(i *instrument.Instrument, called string) string {
	if p.Concert || i.Chromatic%12 == 0 || instrument.NamesKey(called) {
		return ""
	}
	return "in " + printed.Replace(i.KeyName())
}

// printed turns the letters of a tone into its printed signs.
var printed = strings.NewReplacer("b", "♭", "#", "♯")

// tuned says what the strings of tablature sound, the lowest first, where that is not what
// they usually do: "Tuning: D A D G B E"; with octaves, where only these are others.
func (p *Part) tuned() string {
	for _, s := range p.Staves {
		text := strings.Trim(fmt.Sprint(s.Tuning), "[]")
		switch usual := p.Instrument.Tuning; {
		case text == "" || text == usual:
			continue
		case letters(text) != letters(usual):
			text = letters(text)
		}
		return "Tuning: " + printed.Replace(text)
	}
	return ""
}

// letters is a tuning without its octaves.
func letters(tuning string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune("-0123456789", r) {
			return -1
		}
		return r
	}, tuning)
}
