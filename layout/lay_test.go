package layout

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/spec"
)

// read reads one spec, or several as sections of one piece.
func read(t testing.TB, texts ...string) *score.Piece {
	t.Helper()
	var files []spec.File
	for _, text := range texts {
		files = append(files, spec.File{Name: "test.yaml", Text: []byte(text)})
	}
	p, problems := spec.Read(files)
	require.NoError(t, problems.Err())
	return p
}

// laid lays the piece and holds every part to the law.
func laid(t testing.TB, o Options, texts ...string) *sheet.Sheet {
	t.Helper()
	s, problems := Lay(read(t, texts...), o)
	require.NoError(t, problems.Err())
	for i := range s.Parts {
		require.NoError(t, sheet.Check(s, &s.Parts[i]))
	}
	return s
}

// one writes a spec of a single woodblock layer.
func one(meter, pulse, bars, more string) string {
	return "title: Weir\nmeter: " + meter + "\npulse: " + pulse + "\nlength: " + bars + " bars\n" +
		"layers:\n  - {name: Weir, " + more + "}\n"
}

// rhythm returns the bars of a sheet's first part as text, with "|" between.
func rhythm(s *sheet.Sheet) string {
	var bars []string
	for b := range s.Parts[0].Bars() {
		bars = append(bars, sheet.Rhythm(&b.Measure.Voices[0]))
	}
	return strings.Join(bars, " | ")
}

// unbeamed takes the beams out of a rhythm.
func unbeamed(s string) string {
	return strings.NewReplacer("(", "", ")", "", ",", "", "<", "", ">", "").Replace(s)
}

// The worked cases of our spelling rules. [memory] lengths and divisions follow
// common print practice (see the policy in DEVELOPERS.md).
func TestSpelling(t *testing.T) {
	cases := []struct {
		meter, pulse, bars, groups  string
		group, meterLenient, strict string // strict "" where it is the same
	}{
		{"4/4", "1/8", "1", "3+3+2", "q. q. q", "q. e~q q", "q~e e~q q"},
		{"4/4", "1/8", "2", "3+2+2", "q. q q e | ~q q q q", "q. e~e q e | ~q q q q", "q~e e~e e~e e | ~q q q q"},
		{"4/4", "1/8", "1", "5+3", "h~e q.", "h~e q.", "h~e e~q"},
		{"4/4", "1/8", "2", "7", "h~q. e | ~h. q", "h~q. e | ~h. q", "h~q~e e | ~h~q q"},
		{"5/4", "1/8", "2", "3+3+2+2+2", "q. q. q q | q q. q. q", "q. q. q q | q q. q. q", "q~e e~q q q | q q~e e~q q"},
		{"3+2+2/8", "1/8", "1", "2+2+3", "q q q.", "q e~e e~q", ""},
		{"2+2+3/8", "1/8", "1", "7", "h~q.", "h~q.", ""},
		{"3+2+3/8", "1/8", "1", "4+4", "h h", "q.~e e~q.", ""},
		{"6/8", "1/8", "2", "4", "h q | ~q h", "q.~e q | ~q e~q.", ""},
		// Spelling by group has a floor: a sign that begins off the half beat hides no beat.
		{"2/4", "1/16", "1", "3+3+2", "e. s~e e", "e. s~e e", "e~s s~e e"},
		{"12/8", "1/8", "1", "5+5+2", "q.~q e~h q", "q.~q e~q.~e q", ""},
		{"4/4", "1/8", "1", "rest 3 + 5", "rq re e~h", "rq re e~h", ""},
		{"6/8", "1/8", "1", "2 + rest 4", "q re rq.", "q re rq.", ""},
		// Bars of common practice.
		{"4/4", "1/8", "1", "2+4+2", "q h q", "q h q", "q q~q q"},
		{"4/4", "1/8", "1", "1+2+2+2+1", "e q q q e", "e q e~e q e", "e e~e e~e e~e e"},
		{"4/4", "1/8", "1", "6+2", "h. q", "h. q", "h~q q"},
		{"4/4", "1/8", "1", "8", "w", "w", "w"},
		{"6/8", "1/8", "1", "6", "h.", "h.", ""},
		{"6/8", "1/8", "1", "2+2+2", "q q q", "q e~e q", ""},
		{"9/8", "1/8", "1", "4 + rest 1 + 4", "h re h", "q.~e re e~q.", ""},
		{"3/4", "1/8", "1", "3+3", "q. q.", "q. q.", "q~e e~q"},
		{"3+2/8", "1/8", "1", "5", "q.~q", "q.~q", ""},
		{"2+3/8", "1/8", "1", "5", "q~q.", "q~q.", ""},
		{"2+2+3/8", "1/8", "1", "4+3", "h q.", "h q.", ""},
		{"3+2+2/8", "1/8", "1", "7", "q.~h", "q.~h", ""},
		{"2+2+3/8", "1/8", "1", "3+4", "q. h", "q~e e~q.", ""},
		{"3+2+3/8", "1/8", "1", "3+2+3", "q. q q.", "q. q q.", ""},
		// A group that would hide two beats off the beat is cut at the strongest one.
		{"4/4", "1/8", "1", "1+6+1", "e q.~q. e", "e q.~q. e", "e e~q~q~e e"},
	}
	for _, c := range cases {
		text := one(c.meter, c.pulse, c.bars, "groups: "+c.groups)
		assert.Equal(t, c.group, unbeamed(rhythm(laid(t, Options{Spelling: SpellGroup}, text))), "%s %s by group", c.meter, c.groups)
		assert.Equal(t, c.meterLenient, unbeamed(rhythm(laid(t, Options{Spelling: SpellMeter}, text))), "%s %s by meter", c.meter, c.groups)
		strict := c.strict
		if strict == "" {
			strict = c.meterLenient
		}
		assert.Equal(t, strict, unbeamed(rhythm(laid(t, Options{Spelling: SpellMeter, Strict: true}, text))), "%s %s strictly", c.meter, c.groups)
	}
}

// The table of default spellings, worked by hand; "" where by the meter it is
// the same. [memory] Every dotted beat shows in compound meters; in 3/4 and 5/4 a
// syncopation from the beat stays, and of two ways to tie the one that covers no
// beat is taken.
func TestDefaultSpelling(t *testing.T) {
	for _, c := range []struct{ meter, pulse, bars, groups, auto, byMeter string }{
		{"4/4", "1/8", "1", "3+3+2", "q. q. q", "q. e~q q"},
		{"4/4", "1/8", "2", "3+2+2", "q. q q e | ~q q q q", "q. e~e q e | ~q q q q"},
		{"4/4", "1/8", "1", "1+2+2+3", "e q q q.", "e q e~e q."},
		{"4/4", "1/8", "1", "5+3", "h~e q.", ""},
		{"4/4", "1/8", "1", "6+2", "h. q", ""},
		{"4/4", "1/8", "1", "2+4+2", "q h q", ""},
		{"2/2", "1/4", "2", "3+3+2", "h. q | ~h h", "h~q q | ~h h"},
		{"3/4", "1/8", "1", "3+3", "q. q.", ""},
		{"3/4", "1/8", "1", "4+2", "h q", ""},
		{"3/4", "1/8", "1", "1+4+1", "e q.~e e", ""},
		{"3/4", "1/8", "1", "5+1", "h~e e", ""},
		{"3/4", "1/8", "1", "1+5", "e e~h", ""},
		{"6/8", "1/8", "1", "2+2+2", "q e~e q", ""},
		{"6/8", "1/8", "1", "2+4", "q e~q.", ""},
		{"9/8", "1/8", "1", "5+4", "q.~q e~q.", ""},
		{"9/8", "1/8", "1", "2+2+2+3", "q e~e q q.", ""},
		{"9/8", "1/8", "1", "4+5", "q.~e q~q.", ""},
		{"12/8", "1/8", "1", "2+4+6", "q e~q. h.", ""},
		{"12/8", "1/8", "1", "5+5+2", "q.~q e~q.~e q", ""},
		{"5/4", "1/8", "2", "3+3+2+2+2", "q. q. q q | q q. q. q", ""},
		{"5/4", "1/8", "1", "5+5", "h~e e~h", ""},
		{"5/4", "1/8", "1", "9+1", "w~e e", ""},
		{"5/8", "1/8", "1", "3+2", "q. q", ""},
		{"7/8", "1/8", "1", "3+2+2", "q. q q", ""},
		{"7/8", "1/8", "1", "4+3", "h q.", ""},
		{"3+2+2/8", "1/8", "1", "2+2+3", "q q q.", "q e~e e~q"},
		{"2/4", "1/16", "1", "3+3+2", "e. s~e e", ""},
		{"2+2+3+2+2/16", "1/16", "1", "3+3+3+2", "e. e. e. e", "e~s s~e s~e e"},
	} {
		text := one(c.meter, c.pulse, c.bars, "groups: "+c.groups)
		assert.Equal(t, c.auto, unbeamed(rhythm(laid(t, Options{}, text))), "%s %s", c.meter, c.groups)
		byMeter := c.byMeter
		if byMeter == "" {
			byMeter = c.auto
		}
		assert.Equal(t, byMeter, unbeamed(rhythm(laid(t, Options{Spelling: SpellMeter}, text))), "%s %s by meter", c.meter, c.groups)
	}
}

// What is dry is never tied: the first sign of each sound, then rests. Drums and
// the xylophone are unless the spec says otherwise; a marimba and a line without an
// instrument are not.
func TestDryInstruments(t *testing.T) {
	block := func(groups string) string { return one("4/4", "1/8", "1", "instrument: woodblock, groups: "+groups) }
	assert.Equal(t, "h re q.", rhythm(laid(t, Options{}, block("5+3"))))
	assert.Equal(t, "q. q. q", rhythm(laid(t, Options{}, block("3+3+2"))))
	assert.Equal(t, "q. e rq q", rhythm(laid(t, Options{Spelling: SpellMeter}, block("3+3+2"))))
	assert.Equal(t, "h~e q.", unbeamed(rhythm(laid(t, Options{}, block("5+3, tails: tied")))))
	assert.Equal(t, "h re q.", rhythm(laid(t, Options{}, one("4/4", "1/8", "1", "instrument: xylophone, pitches: C5, groups: 5+3"))))
	assert.Equal(t, "h~e q.", unbeamed(rhythm(laid(t, Options{}, one("4/4", "1/8", "1", "instrument: marimba, pitches: C5, groups: 5+3")))))
	assert.Equal(t, "h~e q.", unbeamed(rhythm(laid(t, Options{}, one("4/4", "1/8", "1", "groups: 5+3")))))
	// Over the barline: a 7 from beat 3 is a half, and rests.
	assert.Equal(t, "h h | rq re e h", rhythm(laid(t, Options{}, one("4/4", "1/8", "2", "instrument: woodblock, groups: 4+7+1+4"))))
}

// Rests: the 1917 handbook of Harris, fig. 8, for 6/8; the rest common practice.
func TestRests(t *testing.T) {
	cases := []struct{ meter, box, want string }{
		{"6/8", "x===..", "q.~e re re"},
		{"6/8", "x.....", "e re re rq."},
		{"6/8", "...x..", "rq. e re re"},
		{"4/4", "x.......", "e re rq rh"},
		{"4/4", "......xx", "rh rq e e"},
		{"4/4", "x======.", "h~q. re"},
		{"4/4", "xx....xx", "e e rq rq e e"},
		{"3/4", "xx....", "e e rq rq"},
		{"3+2/8", "...xx", "rq. e e"},
		// Plain bars of 5, 7, 11 eighths: twos, and a three at the end, as beams have them.
		{"7/8", "x==....", "q. re rq."},
		{"5/8", "x....", "e re rq."},
		{"11/8", "....x......", "rq rq e re rq rq."},
		{"4+3/8", "xx..x..", "e e rq e re re"},
		{"5/4", "xx........", "e e rq rq rq rq"},
	}
	for _, c := range cases {
		s := laid(t, Options{Spelling: SpellMeter}, one(c.meter, "1/8", "1", "box: "+c.box))
		assert.Equal(t, c.want, unbeamed(rhythm(s)), "%s %s", c.meter, c.box)
	}
	silent := laid(t, Options{}, one("7/8", "1/8", "2", "groups: 7, enters: bar 2"))
	assert.Equal(t, "rbar | h~q.", rhythm(silent))
}

// Beams. Seven eighths in 2+2+3 and 3+2+2, eight in 3+2+3, in 4/4 never over
// the middle, six in 6/8 and 3/4: common practice. Eighth and two sixteenths:
// the beam example of the MusicXML 4.0 reference.
func TestBeams(t *testing.T) {
	cases := []struct {
		meter, pulse, bars, more string
		beams                    Beaming
		want                     string
	}{
		{"7/8", "1/8", "1", "groups: 2+2+3, strike: all", BeamGroups, "(e e) (e e) (e e e)"},
		{"7/8", "1/8", "1", "groups: 3+2+2, strike: all", BeamGroups, "(e e e) (e e) (e e)"},
		{"4/4", "1/8", "1", "groups: 3+2+3, strike: all", BeamGroups, "(e e e) (e e) (e e e)"},
		{"4/4", "1/8", "1", "groups: 3+3+2, strike: all", BeamGroups, "(e e e) (e e e) (e e)"},
		{"4/4", "1/8", "1", "groups: 3+3+2, strike: all", BeamMeter, "(e e e e) (e e e e)"},
		{"7/8", "1/8", "2", "groups: 3+3+2, strike: all", BeamGroups, "(e e e) (e e e) e | e (e e e) (e e e)"},
		{"6/8", "1/8", "1", "groups: 2+2+2, strike: all", BeamMeter, "(e e e) (e e e)"},
		{"3/4", "1/8", "1", "groups: 3+3, strike: all", BeamMeter, "(e e) (e e) (e e)"},
		{"3+2+3/8", "1/8", "1", "groups: 8, strike: all", BeamMeter, "(e e e) (e e) (e e e)"},
		// Inside a group of eighths, sixteenths hang together by the eighth.
		{"3/8", "1/8", "1", "groups: 3, figures: {3: x=xxxx}", BeamGroups, "(e s s, s s)"},
		{"3/8", "1/8", "1", "groups: 3, figures: {3: xxxxxx}", BeamGroups, "(s s, s s, s s)"},
		// Sixteenths that are themselves the pulse break only between groups.
		{"4/4", "1/16", "1", "groups: 3+3+2, strike: all, enters: bar 1", BeamGroups,
			"(s s s) (s s s) (s s) (s s s) (s s s) (s s)"},
		{"2/4", "1/16", "1", "groups: 8, strike: all", BeamMeter, "(s s s s) (s s s s)"},
		// Dotted eighth and sixteenth: the short one hooks back; before it, forward.
		{"2/4", "1/8", "1", "groups: 2+2, figures: {2: x==x}", BeamGroups, "(e. s<) (e. s<)"},
		{"2/4", "1/8", "1", "groups: 2+2, figures: {2: xx==}", BeamGroups, "(s> e.) (s> e.)"},
		// Groups of one note: beamed by the beat, the inner level broken at each.
		{"2/4", "1/16", "1", "groups: 3+3+2", BeamGroups, "(e. s<)~(e e)"},
		{"4/4", "1/8", "1", "groups: 1+1+2+1+1+2", BeamGroups, "(e e) q (e e) q"},
		// … but no short note is cut off from its like: sixteenths by the eighth.
		{"2/4", "1/16", "1", "groups: 1+1+1+1+1+1+1+1", BeamGroups, "(s s, s s) (s s, s s)"},
		{"2/4", "1/16", "1", "groups: 1+1+2+2+1+1", BeamGroups, "(s s, e) (e s s)"},
		{"2/4", "1/16", "1", "groups: 1+2+1+1+2+1", BeamGroups, "(s> e s<) (s> e s<)"},
		{"2+2+3/16", "1/16", "1", "groups: 1+1+1+1+1+1+1", BeamGroups, "(s s) (s s) (s s s)"},
		{"4/4", "1/8", "1", "groups: 1+1+1+1+1+1+1+1", BeamGroups, "(e e e e) (e e e e)"},
		// A rest inside a beam stays, rests at its edges do not; one note alone has a flag.
		{"6/8", "1/8", "1", "groups: 3+3, figures: {3: x.x}", BeamGroups, "(e re e) (e re e)"},
		{"6/8", "1/8", "1", "groups: 3+3, figures: {3: .x.}", BeamGroups, "re e re re e re"},
		// Quarter pulses: beams by the quarter.
		{"3/4", "1/4", "1", "groups: 3, figures: {3: xxxxxx}", BeamGroups, "(e e) (e e) (e e)"},
	}
	for _, c := range cases {
		s := laid(t, Options{Beams: c.beams}, one(c.meter, c.pulse, c.bars, c.more))
		assert.Equal(t, c.want, rhythm(s), "%s %s", c.meter, c.more)
	}
}

// The worked rows of our tuplet rules; ratios as two theory sheets have them
// ("Readable tuplets"; simple and compound columns).
func TestTuplets(t *testing.T) {
	cases := []struct{ meter, pulse, bars, groups, want string }{
		{"4/4", "1/8 in 3:2", "1", "2+2+2", "[3:2 q q q] [3:2 q q q]"},
		{"4/4", "1/8 in 3:2", "1", "3+2+2", "q [3:2 q e]~[3:2 e q]~[3:2 e q]"},
		{"4/4", "1/8 in 3:2", "1", "4+4+4", "[3:2 h h h]"},
		{"7/8", "1/8 in 3:2", "2", "1", "[3:2 e e e] [3:2 e e e] [3:2 e e e] [3:2 e s] | ~[3:2 s e] [3:2 e e e] [3:2 e e e] [3:2 e e e]"},
		{"7/8", "1/16 in 5:4", "2", "1", "[5:4 s s s s s] [5:4 s s s s s] [5:4 s s s s s] [5:4 s s 32] | ~[5:4 32 s s] [5:4 s s s s s] [5:4 s s s s s] [5:4 s s s s s]"},
		{"5/8", "1/16 in 7:4", "2", "4+3", "[7:4 q e.] [7:4 q e.] e | ~[7:4 32 e.] [7:4 q e.] [7:4 q e.]"},
		{"6/8", "1/8 in 4:3", "1", "3+2", "[4:3 q. e]~[4:3 e q.]"},
		{"6/8", "1/8 in 5:3", "1", "1", "[5:3 e e e e e] [5:3 e e e e e]"},
		// One simple container of each ratio.
		{"1/4", "1/32 in 9:8", "1", "1", "[9:8 32 32 32 32 32 32 32 32 32]"},
		{"1/4", "1/32 in 11:8", "1", "1", "[11:8 32 32 32 32 32 32 32 32 32 32 32]"},
		{"1/4", "1/32 in 13:8", "1", "1", "[13:8 32 32 32 32 32 32 32 32 32 32 32 32 32]"},
		// And of dotted ones.
		{"6/8", "1/8 in 2:3", "1", "1", "[2:3 e e] [2:3 e e]"},
		{"6/8", "1/16 in 7:6", "1", "1", "[7:6 s s s s s s s] [7:6 s s s s s s s]"},
		// Four in the time of three away from a dotted beat are dotted values.
		{"3/4", "1/8 in 4:3", "1", "2", "e. s~e e~s e."},
		// A figure finer than its plain pulse.
		{"2/4", "1/8", "1", "2, figures: {2: xxxxxx}", "[3:2 s s s s s s] [3:2 s s s s s s]"},
	}
	for _, c := range cases {
		s := laid(t, Options{}, one(c.meter, c.pulse, c.bars, "groups: "+c.groups))
		assert.Equal(t, c.want, unbeamed(rhythm(s)), "%s %s %s", c.meter, c.pulse, c.groups)
	}
}

// A sound that runs over a group's start inside a tuplet is cut there only if
// the tuplet has a part there: five in a dotted quarter, halved by barlines.
func TestGroupStartsInsideTuplets(t *testing.T) {
	s := laid(t, Options{}, one("5/4", "1/8 in 5:3", "9", "box: xx=x, groups: 2+2"))
	assert.Equal(t, struck(read(t, one("5/4", "1/8 in 5:3", "9", "box: xx=x, groups: 2+2")), 0), heard(&s.Parts[0]))
}

// A bar of groups is spelled as the plain bar of its length would be: eighths by
// group in 3+2/4 as in 5/4, and where one part of the bar counts eighths.
func TestSpellingOfBarsOfGroups(t *testing.T) {
	for _, meter := range []string{"5/4", "3+2/4"} {
		assert.Equal(t, "q. q. h", rhythm(laid(t, Options{}, one(meter, "1/8", "1", "groups: 3+3+4"))), meter)
	}
	assert.Equal(t, "q h e", rhythm(laid(t, Options{}, one("2/4+3/8", "1/8", "1", "groups: 2+4+1"))))
}
