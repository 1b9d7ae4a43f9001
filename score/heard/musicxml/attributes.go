package musicxml

import (
	"strconv"
	"strings"

	"tieover/score/beat"
	"tieover/score/heard"
)

// readMeter is a time signature.
type readMeter struct {
	text   string // "3+2+2/8"
	length beat.Span
	beats  []beat.Span
}

// readShift is a transposition: written plus this is sounding.
type readShift struct{ steps, semitones int }

func (s *readState) shift(staff int) readShift {
	if own, ok := s.shifts[staff]; ok {
		return own
	}
	return s.shifts[0]
}

func (b *barReading) attributes(e *element) error {
	for _, k := range e.kids {
		var err error
		switch k.name {
		case "divisions":
			err = b.divisions(k)
		case "time":
			err = b.time(k)
		case "transpose":
			err = b.transpose(k)
		case "clef":
			b.clef(k)
		case "measure-style":
			if rest := k.kid("multiple-rest"); rest != nil {
				if n, ok := wholeNumber(rest.text); ok && n >= 1 {
					b.part.state.rests = int(n)
				}
			}
			b.slashStyle(k)
			b.repeatStyle(k)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// clef notes which staves are tablature, and the part's first clef of another kind.
func (b *barReading) clef(e *element) {
	name := clefName(e)
	if b.part.clef == "" || b.part.clef == tab {
		b.part.clef = name
	}
	b.part.state.tabs[staffNumber(e.get("number"), 1)] = name == tab
}

// tab is the sign of the clef of tablature.
const tab = "TAB"

// clefName writes a clef as "G2"; a percussion clef has no line.
func clefName(e *element) string {
	if sign := e.kidText("sign"); len(sign) != 1 {
		return sign
	}
	return e.kidText("sign") + e.kidText("line")
}

func (b *barReading) divisions(e *element) error {
	top, bottom, ok := decimal(e.text)
	if !ok || top <= 0 {
		return failed(e.line, "the divisions %q are not a number above 0", e.text)
	}
	b.part.state.divTop, b.part.state.divBottom = top, bottom
	return nil
}

// time reads a signature. A second one beside it in parentheses says nothing
// new about the length.
func (b *barReading) time(e *element) error {
	if n := e.get("number"); n != "" && n != "1" {
		return nil // a lower staff; the upper one tells the bar's length
	}
	state := &b.part.state
	if e.kid("senza-misura") != nil {
		state.meter = readMeter{}
		return nil
	}
	var terms []string
	for i, k := range e.kids {
		if k.name != "beats" {
			continue
		}
		if i+1 >= len(e.kids) || e.kids[i+1].name != "beat-type" {
			return failed(k.line, "<beats> without a <beat-type> after it")
		}
		terms = append(terms, k.text+"/"+e.kids[i+1].text)
	}
	text := strings.Join(terms, "+")
	meter, known := b.meters[text]
	if !known {
		if len(b.meters) >= maxMeters {
			return failed(e.line, "more than %d different signatures", maxMeters)
		}
		var ok bool
		if meter, ok = parseMeter(terms); !ok {
			return failed(e.line, "the signature %q is not one or more of numbers joined by + over a number from 1 to 128", text)
		}
		b.meters[text] = meter
	}
	state.meter = meter
	return nil
}

// parseMeter adds up the terms of a signature. In a sum of terms every summand
// is one beat.
func parseMeter(terms []string) (meter readMeter, ok bool) {
	if len(terms) == 0 || len(terms) > 8 {
		return meter, false
	}
	for _, term := range terms {
		top, bottom, _ := strings.Cut(term, "/")
		groups, ok := summands(top)
		unit, whole := wholeNumber(bottom)
		if !ok || !whole || unit < 1 || unit > 128 {
			return meter, false
		}
		if len(terms) == 1 {
			meter.beats = heard.Beats(groups, int(unit))
		}
		for _, g := range groups {
			if len(terms) > 1 {
				meter.beats = append(meter.beats, beat.Of(int64(g), unit))
			}
			meter.length = meter.length.Add(beat.Of(int64(g), unit))
		}
		if meter.length.Den() > maxGrid {
			return meter, false
		}
	}
	meter.text = strings.Join(terms, "+")
	return meter, meter.length.Cmp(beat.Of(maxBarSpan, 1)) <= 0
}

// summands reads "3+2+2".
func summands(text string) (groups []int, ok bool) {
	for _, part := range strings.Split(text, "+") {
		n, ok := wholeNumber(strings.TrimSpace(part))
		if !ok || n < 1 || n > 1024 || len(groups) >= 256 {
			return nil, false
		}
		groups = append(groups, int(n))
	}
	return groups, true
}

// transpose reads written-to-sounding. Without diatonic steps the letter is
// the nearest one for that many semitones, as a major or perfect interval.
func (b *barReading) transpose(e *element) error {
	semitones, ok := signed(e.kidText("chromatic"))
	if !ok {
		return failed(e.line, "the transposition of %q semitones is not a whole number from -99 to 99", e.kidText("chromatic"))
	}
	steps := []int{0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6}[beat.Mod(semitones, 12)] + 7*beat.FloorDiv(semitones, 12)
	if text := e.kidText("diatonic"); text != "" {
		if steps, ok = signed(text); !ok {
			return failed(e.line, "the transposition of %q steps is not a whole number from -99 to 99", text)
		}
	}
	if text := e.kidText("octave-change"); text != "" {
		octaves, ok := signed(text)
		if !ok || octaves < -9 || octaves > 9 {
			return failed(e.line, "the octave change %q is not a whole number from -9 to 9", text)
		}
		steps, semitones = steps+7*octaves, semitones+12*octaves
	}
	if e.kid("double") != nil {
		b.remark(heard.LeftOut, "the doubling in octaves from bar %s on is left out", b.bar.number)
	}
	staff := staffNumber(e.get("number"), 0)
	if staff == 0 { // for all staves, whatever they had
		clear(b.part.state.shifts)
	}
	b.part.state.shifts[staff] = readShift{steps, semitones}
	return nil
}

// sounding moves a written tone by the interval: the letter by its steps, the
// accidental by what is left.
func (s readShift) sounding(t heard.Tone) heard.Tone {
	if s == (readShift{}) {
		return t
	}
	const letters = "CDEFGAB"
	place := strings.IndexByte(letters, t.Step) + 7*int(t.Octave) + s.steps
	key, _ := t.Key()
	moved := heard.Tone{Step: letters[beat.Mod(place, 7)], Octave: int8(beat.FloorDiv(place, 7))}
	natural, _ := moved.Key()
	alter := key + s.semitones - natural
	if alter < -3 || alter > 3 { // letters and semitones contradict each other: trust the sound
		return heard.Tone{Name: "key " + strconv.Itoa(key+s.semitones), MIDI: uint8(min(max(key+s.semitones, -1), 127) + 1)}
	}
	moved.Alter = int8(alter)
	return moved
}

// staffNumber reads the number of a staff, below 100, and returns usual where there
// is none.
func staffNumber(text string, usual int) int {
	if n, ok := wholeNumber(text); ok && n < 100 {
		return int(n)
	}
	return usual
}

// wholeNumber reads at most nine digits.
func wholeNumber(text string) (int64, bool) {
	if text == "" || len(text) > 9 || strings.Trim(text, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.ParseInt(text, 10, 64)
	return n, err == nil
}

// signed reads a whole number from -99 to 99; a decimal point with zeros is
// allowed, as "-2.0".
func signed(text string) (int, bool) {
	top, bottom, ok := decimal(text)
	if !ok || top%bottom != 0 || top/bottom < -99 || top/bottom > 99 {
		return 0, false
	}
	return int(top / bottom), true
}

// decimal reads a decimal number as a fraction: at most nine digits before the
// point and four after it that matter.
func decimal(text string) (top, bottom int64, ok bool) {
	digits, negative := strings.CutPrefix(text, "-")
	if !negative {
		digits = strings.TrimPrefix(digits, "+")
	}
	whole, part, pointed := strings.Cut(digits, ".")
	part = strings.TrimRight(part, "0")
	if whole == "" && pointed {
		whole = "0"
	}
	if top, ok = wholeNumber(whole); !ok || len(part) > 4 {
		return 0, 0, false
	}
	bottom = 1
	for _, c := range part {
		if c < '0' || c > '9' {
			return 0, 0, false
		}
		top, bottom = top*10+int64(c-'0'), bottom*10
	}
	if negative {
		top = -top
	}
	return top, bottom, true
}
