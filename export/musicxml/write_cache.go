package musicxml

import (
	"bytes"
	"strconv"

	"github.com/beevik/etree"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// encodedMeasure is the music of a measure as bytes, without its signature,
// marks and barlines, and where in them each event begins.
type encodedMeasure struct {
	buf   []byte
	at    []int // voice after voice: the place of each event, then of the voice's end
	voice []int // the index into at of each voice's first event
}

// place returns where signs before the given event go; the event after the
// last is the voice's end.
func (m *encodedMeasure) place(voice, event int) int { return m.at[m.voice[voice]+event] }

// measure returns the encoded measure, from memory if it was met before.
func (p *partWriter) measure(m *sheet.Measure) (*encodedMeasure, error) {
	if known, ok := p.measures[m]; ok {
		return known, nil
	}
	made, err := p.encodeMeasure(m)
	if err != nil {
		return nil, err
	}
	if len(p.measures) >= memoSize || p.kept+len(made.buf) > memoBytes {
		clear(p.measures)
		p.kept = 0
	}
	p.measures[m] = made
	p.kept += len(made.buf)
	return made, nil
}

func (p *partWriter) encodeMeasure(m *sheet.Measure) (*encodedMeasure, error) {
	l := lines{p.scratch[:0], inMeasure}
	made := &encodedMeasure{at: make([]int, 0, m.Signs()+len(m.Voices)), voice: make([]int, 0, len(m.Voices))}
	for v := range m.Voices {
		made.voice = append(made.voice, len(made.at))
		for _, event := range m.Voices[v].Events {
			made.at = append(made.at, len(l.buf))
			p.event(&l, m, v, event)
		}
		made.at = append(made.at, len(l.buf))
		p.voiceEnd(&l, m, v)
	}
	p.tablature(&l, m)
	p.scratch = l.buf
	if p.err != nil {
		return nil, p.err
	}
	made.buf = bytes.Clone(l.buf)
	return made, nil
}

// template is an encoded sign in which one number may be left open.
type template struct {
	before, after []byte
	hole          bool
}

// hole stands for the number in a sign that is made as a template. It is a
// character that no sign with a number has otherwise.
const hole = "@"

// markKey is all that the look of a mark depends on but for the number of a
// hole.
type markKey struct {
	kind   sheet.MarkKind
	voice  voicePlace
	text   string
	offset beat.Time
	n      int // 0 for kinds with a hole
	tempo  *score.Tempo
	way    *instrument.Technique
	on     *instrument.Instrument
}

// mark returns the encoded mark, from memory if an equal one was met before.
func (p *partWriter) mark(m *sheet.Measure, mark *sheet.Mark) (template, error) {
	key := markKey{mark.Kind, placeOf(&m.Voices[mark.Voice]), mark.Text, mark.Offset, mark.N, mark.Tempo, mark.Technique, mark.Instrument}
	numbered := mark.Kind == sheet.CycleNumber || mark.Kind == sheet.GroupSize
	if numbered {
		key.n = 0
	}
	if known, ok := p.marks[key]; ok {
		return known, nil
	}
	if len(p.marks) >= memoSize {
		clear(p.marks)
	}
	n := strconv.Itoa(mark.N)
	if numbered {
		n = hole
	}
	buf := p.encodeInBar(p.markElements(m, mark, n))
	if p.err != nil {
		return template{}, p.err
	}
	made := template{before: buf}
	if numbered {
		made.before, made.after, made.hole = bytes.Cut(buf, []byte(hole))
	}
	p.marks[key] = made
	return made, nil
}

// edgeKey is all that the signs at one edge of a bar depend on.
type edgeKey struct {
	right     bool
	first     bool
	newBreak  sheet.Break
	barline   sheet.Barline
	times     int
	rest      int
	signature *sheet.Measure // whose signatures are printed; nil for none
	meter     bool
	unprinted bool // the meter is said for programs only
	key       bool
	clef      bool
	// instrument says that the player takes up another one.
	instrument bool
	slashes    [2]change // by staff, as the next
	repeats    [2]change
}

// change is how a way of writing that goes on over bars changes before one.
type change int8

const (
	goesOn change = iota
	begins
	ends
)

// changed says how a way of writing changes where it was so before and is so now.
func changed(before, now bool) change {
	switch {
	case now && !before:
		return begins
	case before && !now:
		return ends
	}
	return goesOn
}

func (p *partWriter) leftKey(b *sheet.Bar, first bool) edgeKey {
	k := edgeKey{first: first, newBreak: b.Break, barline: b.Left, meter: b.NewMeter || first, key: b.NewKey || first, clef: b.NewClef || first, instrument: b.NewInstrument,
		unprinted: first && !b.NewMeter}
	if len(p.sheet.Parts) == 1 && b.Rest > 1 {
		k.rest = b.Rest
	}
	if b.Left == sheet.RepeatStart {
		k.times = b.Times
	}
	if k.meter || k.key || k.clef || k.instrument {
		k.signature = b.Measure
	}
	for staff := range k.repeats {
		slashed, repeated := isSlashed(b.Measure, staff+1), b.Repeats[staff] > 0
		k.slashes[staff], k.repeats[staff] = changed(p.slashed[staff], slashed), changed(p.repeated[staff], repeated)
		p.slashed[staff], p.repeated[staff] = slashed, repeated
	}
	return k
}

func (p *partWriter) rightKey(b *sheet.Bar) edgeKey {
	k := edgeKey{right: true, barline: b.Barline}
	if b.Barline == sheet.RepeatEnd {
		k.times = b.Times
	}
	return k
}

// edge writes the signs at one edge of a bar.
func (p *partWriter) edge(k edgeKey) error {
	if k == (edgeKey{right: k.right}) {
		return nil
	}
	text, ok := p.edges[k]
	if !ok {
		if len(p.edges) >= memoSize {
			clear(p.edges)
		}
		text = p.encodeInBar(p.edgeElements(k))
		if p.err != nil {
			return p.err
		}
		p.edges[k] = text
	}
	_, err := p.out.Write(text)
	return err
}

// encodeInBar returns the elements indented as children of a measure, each
// with the line break before it.
func (p *partWriter) encodeInBar(elements []*etree.Element) []byte {
	p.scratch = p.scratch[:0]
	for _, e := range elements {
		p.scratch = appendElement(p.scratch, e, inMeasure)
	}
	return bytes.Clone(p.scratch)
}

func appendInt(b []byte, n int) []byte { return strconv.AppendInt(b, int64(n), 10) }
