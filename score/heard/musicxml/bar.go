package musicxml

import (
	"encoding/xml"
	"fmt"

	"tieover/score/beat"
	"tieover/score/heard"
)

// readBar is one bar of one part as it is written. Times are ticks of its own
// grid from the barline.
type readBar struct {
	number   string
	printed  string // instead of the number; "" for the number itself
	line     int
	implicit bool // not counted: a pickup, or the rest of a split bar
	own      bool // its barlines are not those of the other parts
	heading  bool // words say whose bars follow
	over     bool // it ends with a final barline, or a repeat
	meter    readMeter
	grid     int64
	fill     int64 // the furthest that any voice or gap reaches
	ends     []voiceEnd
	notes    []readNote
	marks    []readMark
	form     readForm
	tempos   []readTempo
}

// voiceEnd is how far one voice reaches in a bar.
type voiceEnd struct {
	voice string
	at    int64
}

type readNote struct {
	at, length int64
	tone       heard.Tone
	voice      string
	staff      int
	tied, ties bool // a tie ends, begins here
	accent     bool
	slash      bool
	beat       bool // a slash without a stem
	on         int  // which of the part's instruments plays a pitch, from 1; 0 where that is not said
}

type readMark struct {
	at   int64
	text string
}

type readTempo struct {
	at       int64
	quarters beat.Span // a minute
	counts   beat.Span // the note value of a metronome mark; zero of a sound
}

// readState is what goes on from bar to bar in a part.
type readState struct {
	divTop, divBottom int64 // divisions of a quarter as a fraction; 0 until given
	meter             readMeter
	shifts            map[int]readShift // transposition by staff; 0 is all staves
	tabs              map[int]bool      // staves of tablature
	voices            map[string]string // one copy of each name
	rests             int               // bars that a multi-bar rest still counts
	ending            []int             // the ending that the bar belongs to
	slashes           map[int]slashes   // by staff; 0 is all staves
	repeats           map[int]int       // how many bars a sign repeats, by staff; 0 is all staves
}

func newState() readState {
	return readState{shifts: map[int]readShift{}, tabs: map[int]bool{}, voices: map[string]string{}, slashes: map[int]slashes{}, repeats: map[int]int{}}
}

// barReading is the clock inside one bar.
type barReading struct {
	*reading
	part   *readPart
	bar    *readBar
	now    int64 // where the next note begins
	last   int64 // where the last note began, for its chord
	begun  bool  // there is a note that a chord could join
	graces int
	cues   int
	empty  int // notes of no length that are not said to be grace notes
	hidden int // notes that are not printed
}

// measure reads one part's content of a bar. The attributes of the bar are
// those of outer, its content that of inner: the same element in a partwise
// score.
func (in *reading) measure(part *readPart, outer, inner xml.StartElement) error {
	if outer.Name.Local != "measure" {
		return failed(in.line(), "<%s> stands where a <measure> is expected", outer.Name.Local)
	}
	if len(part.bars) >= maxBars {
		return failed(in.line(), "more than %d bars", maxBars)
	}
	bar := &readBar{
		number: attribute(outer.Attr, "number"), printed: attribute(outer.Attr, "text"), line: in.line(), grid: in.grid,
		implicit: attribute(outer.Attr, "implicit") == "yes",
		own:      attribute(outer.Attr, "non-controlling") == "yes",
	}
	b := &barReading{reading: in, part: part, bar: bar}
	if err := b.content(inner); err != nil {
		return err
	}
	b.leaveOutTablature()
	bar.meter = part.state.meter
	if err := b.repeatNotes(); err != nil {
		return err
	}
	bar.form.ending = part.state.ending
	if bar.form.endingOver {
		part.state.ending = nil
	}
	for _, left := range []struct {
		n    int
		what string
	}{{b.graces, "grace note"}, {b.cues, "cue note"}, {b.empty, "zero-length note"}} {
		b.counted(heard.LeftOut, left.n, left.what, "left out in bar "+bar.number)
	}
	b.counted(heard.Hidden, b.hidden, "hidden note", "in bar "+bar.number+" sounding though not printed")
	part.cues += b.cues
	part.notes += len(bar.notes)
	b.countRest()
	part.bars = append(part.bars, bar)
	return nil
}

// content reads the children of the bar: those that are plainly to be seen whole,
// as text, all others token by token.
func (b *barReading) content(bar xml.StartElement) error {
	whole := !b.src.closed() // nothing of the next token has been looked at
	for {
		if whole {
			e, before, ok, err := b.tokens.child()
			if err != nil {
				return err
			}
			if ok {
				if err := b.child(e); err != nil {
					return onLine(err, before)
				}
				continue
			}
		}
		token, err := b.next()
		if err != nil {
			return b.early(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			if err := b.oneByOne(token); err != nil {
				return err
			}
			whole = true
		case xml.CharData:
			whole = false // the decoder has seen what ends the text
		case xml.EndElement:
			if token.Name != bar.Name {
				return b.mismatch(bar, token)
			}
			return nil
		}
	}
}

// oneByOne reads a child whose start was just read.
func (b *barReading) oneByOne(start xml.StartElement) error {
	if barChildren[start.Name.Local] == nil {
		return b.skip(start)
	}
	e, err := b.tree(start)
	if err != nil {
		return err
	}
	return b.child(e)
}

// barChildren reads those children of a bar that say anything about what sounds.
var barChildren = map[string]func(b *barReading, e *element) error{
	"note": (*barReading).note, "backup": (*barReading).backup, "forward": (*barReading).forward,
	"attributes": (*barReading).attributes, "direction": (*barReading).direction,
	"barline": (*barReading).barline, "sound": (*barReading).sound,
}

func (b *barReading) child(e *element) error {
	if read := barChildren[e.name]; read != nil {
		return read(b, e)
	}
	return nil
}

// countRest follows a multi-bar rest through the bars it counts.
func (b *barReading) countRest() {
	state := &b.part.state
	if state.rests == 0 {
		return
	}
	state.rests--
	if len(b.bar.notes) > 0 {
		b.remark(heard.Misfit, "bar %s has notes inside a multi-bar rest", b.bar.number)
		state.rests = 0
	}
}

// counted remarks on things of which the bar has n.
func (b *barReading) counted(kind heard.RemarkKind, n int, what, where string) {
	if n > 0 {
		b.addRemark(heard.Remark{Kind: kind, Part: b.part.name, Bar: b.bar.number,
			Text: beat.Counted(n, what) + " " + where, Of: what, Count: n})
	}
}

// remark records something about the bar.
func (b *barReading) remark(kind heard.RemarkKind, format string, args ...any) {
	b.addRemark(heard.Remark{Kind: kind, Part: b.part.name, Bar: b.bar.number, Text: fmt.Sprintf(format, args...)})
}

// addRemark keeps a remark; a broken file is not followed into more than maxRemarks
// of them.
func (in *reading) addRemark(r heard.Remark) {
	if len(in.remarks) < maxRemarks {
		in.remarks = append(in.remarks, r)
	}
}
