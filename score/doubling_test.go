package score

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/instrument"
)

// plays makes layers of one player, each on its instrument, in eighths.
func plays(t *testing.T, of map[*Layer]string) {
	t.Helper()
	for l, name := range of {
		ins, ok := instrument.Find(name)
		require.True(t, ok, name)
		l.Instrument, l.Player = ins, "Reed 1"
		l.Series = [][]Chord{{{{Step: 'C', Octave: 5}}}}
	}
}

func atBar(n int) *Place { return &Place{Kind: AtBar, N: int64(n)} }

// told are turns in eighths: section, when, who, and before that: section, until when, who.
type told struct {
	section, at int
	who         string
	in, over    int
	before      string
	again       bool
}

func turnsOf(t *testing.T, p *Piece) (all []told) {
	for turn := range p.Turns(p.Players()[0]) {
		now := told{section: turn.Section, at: eighths(t, turn.Time), who: turn.Layer.Name, in: turn.In, over: eighths(t, turn.Over), again: turn.Again}
		if turn.Before != nil {
			now.before = turn.Before.Name
		}
		all = append(all, now)
	}
	return all
}

// Eight bars of 4/4. The flute plays 3+3+2 in bars 1 and 2, 16 eighths; the alto enters
// at bar 5, after 32. Where the section is played again, flute follows alto.
func TestTurns(t *testing.T) {
	make := func() *Section {
		flute, alto := layer("Flute", groups(3, 3, 2)), layer("Alto", groups(4, 4))
		plays(t, map[*Layer]string{flute: "flute", alto: "alto saxophone"})
		flute.LeaveAt, alto.EnterAt = atBar(3), atBar(5)
		return in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 8}, flute, alto)
	}
	once := make()
	first, turn := told{0, 0, "Flute", 0, 0, "", false}, told{0, 32, "Alto", 0, 16, "Flute", false}
	p := settle(t, once)
	assert.Equal(t, []told{first, turn}, turnsOf(t, p))
	assert.Empty(t, p.Warnings)

	again := make()
	again.End, again.Times = Repeat, 2
	// At 132 an eighth lasts 5/22 s. The alto sounds to the end, and the flute begins at once.
	p = settle(t, again)
	assert.Equal(t, []told{first, turn, {0, 0, "Flute", 0, 64, "Alto", true}}, turnsOf(t, p))
	require.Len(t, p.Warnings, 1)
	assert.Equal(t, "Reed 1 has 0 s to change to flute when the section is repeated", p.Warnings[0].Text)

	a, b := make(), make()
	a.Name, b.Name = "A", "B"
	b.Layers = b.Layers[:1] // the flute alone
	p = settle(t, a, b)
	assert.Equal(t, []told{first, turn, {1, 0, "Flute", 0, 64, "Alto", false}}, turnsOf(t, p))
}

// The time to change, across a section in which the player rests: at 60 an eighth
// lasts half a second. The flute stops 3 eighths before the end of section A, section
// B has one bar of 2/4 (2 s), the alto enters 1 eighth into section C: 1.5+2+0.5 = 4 s,
// enough; 5 eighths less are not.
func TestTimeToChange(t *testing.T) {
	for eighth, want := range map[int64][]string{1: nil, -4: {"Reed 1 has 1.5 s to change to oboe before bar 2"}} {
		flute, other, oboe := layer("Flute", groups(5)), layer("Bell", groups(4)), layer("Oboe", groups(4, 4))
		plays(t, map[*Layer]string{flute: "flute", oboe: "oboe"})
		flute.LeaveAt = &Place{Kind: AtPulse, N: 6}
		oboe.EnterAt = &Place{Kind: AtPulse, N: max(1, eighth+1)}
		if eighth < 0 { // no section between, and from the start
			oboe.EnterAt = nil
		}
		a := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 1}, flute)
		b := in(PlainSignature(2, 4), LengthRule{Kind: Bars, N: 1}, other)
		c := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 1}, oboe)
		sections := []*Section{a, b, c}
		if eighth < 0 {
			sections = []*Section{a, c}
		}
		for i, s := range sections {
			s.Name = string(rune('A' + i))
			s.Tempo = Tempo{Quarters: beat.Of(60, 1), Beat: beat.Of(1, 4), Rate: beat.Of(60, 1)}
		}
		p := settle(t, sections...)
		var said []string
		for _, w := range p.Warnings {
			said = append(said, w.Text)
		}
		assert.Equal(t, want, said)
	}
}

// What sounds together, and what only shares a bar. The flute plays bar 1 to its
// third beat; the oboe enters on the third beat, the fourth, or with bar 2.
func TestOneInstrumentAtOnce(t *testing.T) {
	const together, inOneBar = "Flute and Oboe of player \"Reed 1\" sound together in bar 1; a player holds one instrument",
		"Flute and Oboe of player \"Reed 1\" both sound in bar 1; a player changes instruments at a barline"
	for _, c := range []struct {
		flute []int
		enter Place
		want  []string
	}{
		{[]int{4, 4}, Place{Kind: AtBar, N: 2}, nil}, // leaves there
		{[]int{4, 4}, Place{Kind: AtBar, N: 1, Beat: 3}, []string{together}},
		{[]int{4, 4}, Place{Kind: AtBar, N: 1, Beat: 4}, []string{together}},
		{[]int{4}, Place{Kind: AtBar, N: 1, Beat: 4}, []string{inOneBar}},
		{[]int{4}, Place{Kind: AtBar, N: 1, Beat: 3}, []string{inOneBar}},
		{[]int{5}, Place{Kind: AtBar, N: 1, Beat: 3}, []string{together}},
	} {
		flute, oboe := layer("Flute", groups(c.flute...)), layer("Oboe", groups(4, 4))
		if len(c.flute) == 1 {
			flute.Patterns[0].Groups = append(flute.Patterns[0].Groups, Item{Size: 8 - c.flute[0], Blank: true})
		}
		plays(t, map[*Layer]string{flute: "flute", oboe: "oboe"})
		flute.LeaveAt, oboe.EnterAt = atBar(2), &c.enter
		var said []string
		for _, problem := range refused(in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 2}, flute, oboe)) {
			said = append(said, problem.Text)
		}
		assert.Equal(t, c.want, said, "%v %v", c.flute, c.enter)
	}
}

// Players name their instruments in the order of the spec; one on an instrument is
// no doubling.
func TestInstrumentsOfAPlayer(t *testing.T) {
	one, two, three := layer("One", groups(4)), layer("Two", groups(4)), layer("Three", groups(4))
	plays(t, map[*Layer]string{one: "oboe", two: "flute", three: "oboe"})
	one.LeaveAt, two.EnterAt, two.LeaveAt, three.EnterAt = atBar(2), atBar(2), atBar(3), atBar(3)
	players := settle(t, in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 4}, one, two, three)).Players()
	require.Len(t, players, 1)
	assert.True(t, players[0].Doubles())
	assert.Equal(t, []*instrument.Instrument{one.Instrument, two.Instrument}, players[0].Instruments)
	assert.False(t, slices.ContainsFunc(settle(t, in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 4}, layer("Bell", groups(4)))).Players(), Player.Doubles))
}

// A quarter of pickup, then four bars of 4/4 that are repeated from bar 1 on. The flute
// plays in the pickup only, so the alto, of bars 1 to 4, has no turn at the repeat. Where
// the flute comes back in bar 4 the alto follows it there: it sounds until the barline of
// bar 5, and bar 1 is at once.
func TestTurnsAfterAPickup(t *testing.T) {
	made := func(back bool) *Section {
		flute, alto := layer("Flute", groups(2)), layer("Alto", groups(4, 4))
		plays(t, map[*Layer]string{flute: "flute", alto: "alto saxophone"})
		flute.EnterAt, flute.LeaveAt = &Place{Kind: AtBar}, atBar(1)
		layers := []*Layer{flute, alto}
		if back {
			flute := layer("Flute again", groups(8))
			plays(t, map[*Layer]string{flute: "flute"})
			flute.EnterAt, alto.LeaveAt = atBar(4), atBar(3)
			layers = append(layers, flute)
		}
		s := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 4}, layers...)
		s.Pickup, s.End = beat.Of(1, 4), Repeat
		return s
	}
	first, turn := told{0, -2, "Flute", 0, 0, "", false}, told{0, 0, "Alto", 0, 0, "Flute", false}
	assert.Equal(t, []told{first, turn}, turnsOf(t, settle(t, made(false))))
	back, again := told{0, 24, "Flute again", 0, 16, "Alto", false}, told{0, 0, "Alto", 0, 32, "Flute again", true}
	p := settle(t, made(true))
	assert.Equal(t, []told{first, turn, back, again}, turnsOf(t, p))
	require.Len(t, p.Warnings, 3, "eight eighths before bar 4 are too few as well")
	assert.Contains(t, p.Warnings[0].Text, "Reed 1 has 0 s to change to alto saxophone")
	assert.Contains(t, p.Warnings[2].Text, "Reed 1 has 0 s to change to alto saxophone")
}
