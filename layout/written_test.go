package layout

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/edit"
	"tieover/layout/sheet"
	"tieover/score"
)

// writtenText is a guitar's 3+3+2 eighths in 4/4, eight bars.
func writtenText(more string) string {
	return "title: Weir\nmeter: 4/4\nlength: 8 bars\nlayers:\n  - {name: Guitar, instrument: guitar, groups: 3+3+2, pitches: E4 G4 A4" + more
}

// repeatsOf lists the counts of equal bars on staff 1, and the voices' rhythms.
func repeatsOf(p *sheet.Part) (repeats []int, rhythms []string) {
	for b := range p.Bars() {
		repeats = append(repeats, b.Repeats[0])
		rhythms = append(rhythms, sheet.Rhythm(&b.Measure.Voices[0]))
	}
	return repeats, rhythms
}

// Bars 2 to 8 are equal to the one before; each fourth is counted. Systems begin
// with notes, and so does an excerpt, which counts anew.
func TestRepeatedBars(t *testing.T) {
	s := laid(t, Options{Breaks: BreakNone}, writtenText(", written: repeats}\n"))
	repeats, rhythms := repeatsOf(&s.Parts[0])
	assert.Equal(t, []int{0, 2, 3, 4, 5, 6, 7, 8}, repeats)
	assert.Equal(t, []string{"4.0 repeat 4", "8.0 repeat 8"}, countsOf(&s.Parts[0]))
	assert.Equal(t, "q. q. q", rhythms[5], "the notes are there")
	cut, problems := edit.Excerpt(s, 3, 7, nil)
	assert.Empty(t, problems)
	repeats, _ = repeatsOf(&cut.Parts[0])
	assert.Equal(t, []int{0, 2, 3, 4, 5}, repeats)
	assert.Equal(t, []string{"6.0 repeat 4"}, countsOf(&cut.Parts[0]))

	s = laid(t, Options{}, writtenText(", written: repeats}\n"))
	for b := range s.Parts[0].Bars() {
		if b.Break != sheet.NoBreak {
			assert.Zero(t, b.Repeats[0], "bar %d begins a system", b.Number)
		}
	}
	// A label in bar 5, and another accent in bar 7.
	s = laid(t, Options{Breaks: BreakNone}, writtenText(", written: repeats, except: [{cycle: 7, pitches: C5}]}\nplan: [{at: bar 5, mark: M}]\n"))
	repeats, _ = repeatsOf(&s.Parts[0])
	assert.Equal(t, []int{0, 2, 3, 4, 0, 2, 0, 0}, repeats)
}

func countsOf(p *sheet.Part) (all []string) {
	for b := range p.Bars() {
		for _, m := range b.Marks {
			if m.Kind == sheet.RepeatCount {
				all = append(all, fmt.Sprintf("%d.%d %s", b.Number, m.Before, m))
			}
		}
	}
	return all
}

// 5+3+5 eighths are tied over barlines: no sign can stand for such a bar.
func TestTiedBarsAreNotRepeated(t *testing.T) {
	s := laid(t, Options{Breaks: BreakNone}, "title: Weir\nmeter: 4/4\nlength: 8 bars\nlayers:\n  - {name: Flute, instrument: flute, groups: 8, offset: 4, pitches: E5, written: repeats}\n")
	repeats, _ := repeatsOf(&s.Parts[0])
	assert.Equal(t, make([]int, 8), repeats)
}

// Slashes are one a beat: quarters of 4/4, dotted ones of 6/8, eighths of 5/8, a
// summand of additive bars; five eighths, which no sign can have, are two and three.
// Neither ties nor beams nor touches stand at them, and what was tied in is over.
func TestSlashes(t *testing.T) {
	slashes := func(meter string) *sheet.Voice {
		s := laid(t, Options{}, "title: Weir\nmeter: "+meter+"\nlength: 2 bars\nlayers:\n"+
			"  - {name: Flute, instrument: flute, groups: 3+2+2, pitches: E5, touches: accent+roll, written: slashes}\n")
		return firstVoice(&s.Parts[0], 1)
	}
	for meter, want := range map[string]string{"4/4": "q q q q", "6/8": "q. q.", "5/8": "e e e e e", "5+3/8": "q q. q.", "3/2": "h h h", "2/4+3/8": "h q."} {
		v := slashes(meter)
		assert.Equal(t, score.AsSlashes, v.As)
		assert.Equal(t, want, sheet.Rhythm(v), meter)
		for _, e := range v.Events {
			n := e.(*sheet.Note)
			assert.Equal(t, []sheet.Head{{}}, n.Heads)
			assert.Zero(t, n.Touch)
			assert.False(t, n.Accent || n.Beams != nil)
		}
	}
}

func firstVoice(p *sheet.Part, bar int) *sheet.Voice {
	for b := range p.Bars() {
		if b.Number == bar {
			return &b.Measure.Voices[0]
		}
	}
	return nil
}

// 6+5 eighths in 4/4 begin at 0 6, 11, 17 22 and 28. Sounds lead over each barline:
// not from notes into a rhythm (6 to 11), nor back (22 to 28), where they are rests;
// inside the rhythm (11 to 17) they are tied.
func TestARhythmIsTiedOnlyInside(t *testing.T) {
	s := laid(t, Options{Spelling: SpellGroup}, "title: Weir\nmeter: 4/4\nlength: 5 bars\nlayers:\n"+
		"  - {name: Flute, instrument: flute, groups: 6+5, pitches: E5 G5}\nplan: [{at: bar 2, written: rhythm, to: bar 4}]\n")
	p := &s.Parts[0]
	assert.NoError(t, sheet.Check(s, p))
	var got []string
	for bar := 1; bar <= 4; bar++ {
		got = append(got, sheet.VoiceText(firstVoice(p, bar), true))
	}
	assert.Equal(t, []string{"h.:E5 q:G5", "rhythm: rq re e:x0~h:x0", "rhythm: ~e:x0 q.:x0~q:x0 q:x0", "rh h:G5"}, got)
}

// What is cut off at bar 3, where the rhythm ends, stays silent to its end in bar 4.
func TestWhatIsCutOffStaysSilent(t *testing.T) {
	s := laid(t, Options{}, "title: Weir\nmeter: 2/4\npulse: 1/4\nlength: 5 bars\nlayers:\n"+
		"  - {name: Flute, instrument: flute, line: 'D5 3, B5 4, E5 3'}\nplan: [{at: bar 1, written: rhythm, to: bar 3}]\n")
	p := &s.Parts[0]
	assert.NoError(t, sheet.Check(s, p))
	var got []string
	for bar := 1; bar <= 4; bar++ {
		got = append(got, sheet.VoiceText(firstVoice(p, bar), true))
	}
	assert.Equal(t, []string{"rhythm: h:x0", "rhythm: ~q:x0 q:x0", "rbar", "rq q:E5"}, got)
}

// A slur does not lead over the rest that a sound leaves where it is cut off: of four
// sounds under one slur, 6+4+3+3 eighths, the second is cut at bar 2.
func TestASlurEndsWhereASoundIsCutOff(t *testing.T) {
	s := laid(t, Options{}, "title: Weir\nmeter: 4/4\nlength: 3 bars\nlayers:\n"+
		"  - {name: Flute, instrument: flute, groups: 6+4+3+3, pitches: E5, slurs: 4}\nplan: [{at: bar 2, written: rhythm}]\n")
	p := &s.Parts[0]
	assert.NoError(t, sheet.Check(s, p))
	var slurs []score.Slur
	for bar := 1; bar <= 2; bar++ {
		for _, e := range firstVoice(p, bar).Events {
			if n, ok := e.(*sheet.Note); ok && n.Slur != (score.Slur{}) {
				slurs = append(slurs, n.Slur)
			}
		}
	}
	assert.Equal(t, []score.Slur{{Starts: true}, {Stops: true}}, slurs, "both of bar 1, none in bar 2")
}

// The layers of a drummer are slashes together or not at all, once on the staff.
func TestSlashesOfOneStaff(t *testing.T) {
	kit := "title: Weir\nmeter: 4/4\nlength: 4 bars\nlayers:\n" +
		"  - {name: Hands, player: Kit, instrument: drum set, groups: 2+2+2+2, pitches: snare, written: slashes}\n" +
		"  - {name: Feet, player: Kit, instrument: drum set, groups: 3+5, pitches: kick%s}\n"
	voices := func(feet string) (as [2]score.Written, rhythms [2]string) {
		for b := range laid(t, Options{}, fmt.Sprintf(kit, feet)).Parts[0].Bars() {
			for i := range b.Measure.Voices {
				as[i], rhythms[i] = b.Measure.Voices[i].As, sheet.Rhythm(&b.Measure.Voices[i])
			}
			break
		}
		return as, rhythms
	}
	as, rhythms := voices(", written: slashes")
	assert.Equal(t, [2]score.Written{score.AsSlashes, score.AsSlashes}, as)
	assert.Equal(t, [2]string{"q q q q", "r*bar"}, rhythms)
	as, _ = voices("")
	assert.Equal(t, [2]score.Written{}, as)
}

// By hand: cycles of 12 eighths begin at 0, 12, 24 and 36 in bars of 8, so a bracket
// begins in bars 1, 2, 4 and 5 and ends in the bar after; silence inside slashes does
// not keep it open. Where another voice has the slashes, a bracket that is open ends
// with its cycle, and none begins.
func TestBracketsOverSlashesEnd(t *testing.T) {
	brackets := func(voice int, layers string) (begin, end []int) {
		s := laid(t, Options{Edition: sheet.Study}, "title: Weir\nmeter: 4/4\nlength: 6 bars\n"+layers)
		for b := range s.Parts[0].Bars() {
			for _, m := range b.Marks {
				switch {
				case m.Voice != voice:
				case m.Kind == sheet.CycleStart:
					begin = append(begin, b.Number)
				case m.Kind == sheet.CycleStop:
					end = append(end, b.Number)
				}
			}
		}
		return begin, end
	}
	begin, end := brackets(0, "layers:\n  - {name: Flute, instrument: flute, groups: 4+8, pitches: E5, written: slashes, except: [{cycle: 2, rest: yes}]}\n")
	assert.Equal(t, []int{1, 2, 4, 5}, begin)
	assert.Equal(t, []int{2, 3, 5, 6}, end)
	begin, end = brackets(1, "layers:\n  - {name: Hands, player: Kit, instrument: drum set, groups: 4+4, pitches: snare}\n"+
		"  - {name: Feet, player: Kit, instrument: drum set, groups: 4+8, pitches: kick}\n"+
		"plan: [{at: bar 3, written: slashes, for: [Hands, Feet]}]\n")
	assert.Equal(t, []int{1, 2}, begin)
	assert.Equal(t, []int{2, 3}, end)
}
