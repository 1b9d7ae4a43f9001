package play

import (
	"tieover/score"
	"tieover/score/beat"
)

// Performance is a piece as it sounds, repeats played out, landings struck.
// Its times count from the first sound of the count-in, or from the first bar
// when there is none, in ticks of Grid.
type Performance struct {
	Title, Rights string

	Grid    beat.Grid // the piece's, or finer where staccato and grace notes halve lengths
	Lead    beat.Time // how long the count-in lasts
	Length  beat.Time // to the end of the last bar
	Voices  []Voice   // in order of first appearance
	Passes  []Pass    // in order
	Tempos  []Tempo   // in order, the first at 0; no two at one time
	Keys    []Key     // in order; none before the first section that has one
	Markers []Marker  // in order

	fine  beat.Time // ticks of Grid in a tick of the piece
	piece *score.Piece
}

// Pass is one time through a section. A section that repeats has several.
type Pass struct {
	Section       int       // index into the piece's sections
	Time          int       // from 1, of a section that repeats more
	Start, Length beat.Time // from bar 1 to the end of its last bar
	Pickup        beat.Time // what sounds of it before bar 1: the pickup in the first pass, else 0
}

// Begins returns when the pass begins to sound.
func (p Pass) Begins() beat.Time { return p.Start - p.Pickup }

// at returns when a moment of the section sounds in the pass. ok is false in a pickup
// that the pass leaves out.
func (f *Performance) at(p Pass, t beat.Time) (at beat.Time, ok bool) {
	at = p.Start + f.fine*t
	return at, at >= p.Begins()
}

// since returns when something begins to hold in the pass that the section changes at a
// moment: in a pickup that the pass leaves out, as the pass begins.
func (f *Performance) since(p Pass, t beat.Time) beat.Time {
	return max(p.Start+f.fine*t, p.Begins())
}

// Tempo is a speed that holds from a moment on.
type Tempo struct {
	At       beat.Time
	Quarters beat.Span // quarter notes a minute
}

// Key is a key signature that holds from a moment on.
type Key struct {
	At     beat.Time
	Fifths int  // sharps, or negative flats; 0 too where a section has none after one that had
	Minor  bool // minor or aeolian
}

// Marker is a signpost as it is passed.
type Marker struct {
	At   beat.Time
	Text string
}

// Voice is what the layers of one name sound, through all sections.
type Voice struct {
	Name     string
	Settings []Setting // in order, the first at 0

	perf   *Performance
	bare   int   // the drum key of a rhythm without an instrument
	layers []int // per section: index of the layer, -1 where there is none
}

// Setting is the sound that a voice has from a moment on.
type Setting struct {
	At      beat.Time
	Program int // General MIDI program from 1; 0 for drums
	Manner  Manner
	Pan     int // -90 left … 90 right
}

// Manner is how an instrument makes its sound, for players without a sound set.
type Manner int

const (
	Held    Manner = iota // sounds as long as it is played
	Struck                // rings out by itself: mallets, bells
	Plucked               // fades until it is let go: strings, keyboards
	Drums                 // unpitched; keys are of the drum map
)

// Event is one sounding attack, a stroke of one that is rolled, or a grace note.
type Event struct {
	At, Length beat.Time // Length is how long it sounds: half as written when staccato
	Lasts      beat.Time // of an attack that is rolled: the length of all its strokes; else 0
	Keys       []int     // MIDI keys, of drums when Drums; only good until the next event
	Drums      bool
	Velocity   int  // 1 to 127
	Pass       int  // index into Passes
	Pickup     bool // of an attack in the pickup
	Inner      bool // no attack of its own: a further stroke of a roll, or a grace note
}

// Of returns the performance of a settled piece, after countIn bars of clicks in
// its first meter. Before a pickup the bar that it ends is clicked too.
func Of(p *score.Piece, countIn int) *Performance {
	fine := fineness(p)
	f := &Performance{Title: p.Title, Rights: p.Rights, Grid: p.Grid * beat.Grid(fine), fine: fine, piece: p}
	if s := p.Sections[0]; countIn > 0 {
		first := s.Bar(s.FirstN())
		f.Lead = f.fine * (beat.Time(countIn)*p.Grid.Must(first.Signature.Span()) + first.Skipped)
	}
	f.passes()
	f.voices()
	f.tempos()
	f.keys()
	f.markers()
	return f
}

func (f *Performance) passes() {
	f.Length = f.Lead
	for _, p := range f.piece.Passes() {
		pass := Pass{Section: p.Section, Time: p.Time, Start: f.Lead + f.fine*p.At, Length: f.fine * f.piece.Sections[p.Section].Extent(), Pickup: -f.fine * p.From}
		f.Passes = append(f.Passes, pass)
		f.Length = pass.Start + pass.Length
	}
}

func (f *Performance) tempos() {
	for _, pass := range f.Passes {
		for _, t := range f.piece.Sections[pass.Section].Speeds() {
			at := f.since(pass, t.Time)
			if len(f.Tempos) == 0 {
				at = 0 // the count-in goes at the first tempo
			}
			n := len(f.Tempos)
			switch {
			case n > 0 && f.Tempos[n-1].Quarters == t.Quarters:
			case n > 0 && f.Tempos[n-1].At == at:
				f.Tempos[n-1].Quarters = t.Quarters
			default:
				f.Tempos = append(f.Tempos, Tempo{at, t.Quarters})
			}
		}
	}
}

func (f *Performance) keys() {
	for _, pass := range f.Passes {
		keys := f.piece.Sections[pass.Section].Keys()
		for i, k := range keys {
			if _, sounds := f.at(pass, k.Time); !sounds && i+1 < len(keys) && keys[i+1].Time <= 0 {
				continue
			}
			f.key(f.since(pass, k.Time), k.Key)
		}
	}
}

func (f *Performance) key(at beat.Time, key score.Key) {
	now := Key{at, key.Fifths, key.Mode == "minor" || key.Mode == "aeolian"}
	n := len(f.Keys)
	switch {
	case n == 0 && key.None:
		return
	case n > 0 && f.Keys[n-1].Fifths == now.Fifths && f.Keys[n-1].Minor == now.Minor:
		return
	case at == f.Lead:
		now.At = 0 // the count-in stands in the first meter and key
	}
	f.Keys = append(f.Keys, now)
}

func (f *Performance) markers() {
	for _, pass := range f.Passes {
		for sign := range f.piece.Sections[pass.Section].Signposts() {
			if at, ok := f.at(pass, sign.At); ok {
				f.Markers = append(f.Markers, Marker{at, sign.Text})
			}
		}
	}
}

// CountUpTo returns how many attacks sound, counting no further than most+1.
func (f *Performance) CountUpTo(most int) int {
	n := 0
	for k := range f.Voices {
		for range f.Voices[k].Events() {
			if n++; n > most {
				return n
			}
		}
	}
	return n
}
