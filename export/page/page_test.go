package page

import (
	"bytes"
	"encoding/xml"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

func layer(name, sound string, groups []int, pitches ...score.Tone) *score.Layer {
	i, ok := instrument.Find(sound)
	if !ok {
		i = instrument.Rhythm
	}
	l := &score.Layer{Name: name, Short: name, Instrument: i, Pulse: beat.Plain(beat.Of(1, 8)), Patterns: []score.Pattern{{}}}
	for _, g := range groups {
		l.Patterns[0].Groups = append(l.Patterns[0].Groups, score.Item{Size: g})
	}
	if len(pitches) > 0 {
		l.Series = [][]score.Chord{{}}
	}
	for _, p := range pitches {
		l.Series[0] = append(l.Series[0], score.Chord{p})
	}
	return l
}

func section(meter score.Signature, realignments int64, layers ...*score.Layer) *score.Section {
	return &score.Section{
		Meter: score.Meter{meter}, Pulse: beat.Plain(beat.Of(1, 8)), Layers: layers,
		Tempo:      score.Tempo{Quarters: beat.Of(132, 1), Beat: beat.Of(1, 4), Rate: beat.Of(132, 1)},
		LengthRule: score.LengthRule{Kind: score.Realignments, N: realignments},
	}
}

// round is 3+2+2+3 against 3+3+2+2+2 in 5/4, together again after 60 eighths.
func round() *score.Section {
	s := section(score.PlainSignature(5, 4), 2,
		layer("Marimba", "marimba", []int{3, 2, 2, 3}, score.Tone{Step: 'E', Octave: 5}, score.Tone{Step: 'B', Octave: 4},
			score.Tone{Step: 'G', Octave: 4}, score.Tone{Step: 'D', Octave: 5}),
		layer("Vibraphone", "vibraphone", []int{3, 3, 2, 2, 2}, score.Tone{Step: 'C', Octave: 5}, score.Tone{Step: 'G', Octave: 4}))
	s.Name = "B"
	s.Plan = []score.PlanEntry{{At: score.Place{Kind: score.AtRealignment, N: 1}, Text: "second lock: bring out the vibraphone"}}
	return s
}

func settled(t *testing.T, grid beat.Grid, sections ...*score.Section) *score.Piece {
	t.Helper()
	p := &score.Piece{Title: "Lock Keeper's Round", Composer: "the towpath band", Grid: grid, Sections: sections}
	require.Empty(t, p.Settle())
	return p
}

// The figure of the round, read back from its SVG. Pulses are 26.13 units wide:
// three bars of 10 eighths fill 960-150-26 units.
func TestFigure(t *testing.T) {
	v := gather(settled(t, 8, round()), 0, nil)
	systems := v.systems(wide)
	require.Len(t, systems, 4, "six bars of ten eighths at 14 units each need two lines, twice")
	var ends []beat.Time
	for _, s := range systems {
		ends = append(ends, s.to)
	}
	assert.Equal(t, []beat.Time{30, 60, 90, 120}, ends)
	assert.Equal(t, unit(150*one), systems[0].x(0))
	assert.Equal(t, unit(15000+78400*3/30), systems[0].x(3))

	drawn := readSVG(t, v.drawSystem(v.frame(0, systems, wide)))
	// Marimba 0 3 5 7 and 10 later; Vibraphone 0 3 6 8 10 and 12 later
	assert.Equal(t, xs(systems[0], 0, 3, 5, 7, 10, 13, 15, 17, 20, 23, 25, 27), drawn.starts("hit ink0"))
	assert.Equal(t, xs(systems[0], 0, 3, 6, 8, 10, 12, 15, 18, 20, 22, 24, 27), drawn.starts("hit ink1"))
	assert.Equal(t, []string{"#1", "#2", "#3", "#1", "#2 late 2", "#3 late 4"}, drawn.texts("cycle"))
	assert.Equal(t, []string{"1", "2", "3"}, drawn.texts("bar"))
	assert.Empty(t, drawn.texts("label"))

	drawn = readSVG(t, v.drawSystem(v.frame(2, systems, wide)))
	assert.Equal(t, []string{"B1"}, drawn.texts("label"))
	assert.Equal(t, xs(systems[2], 60), drawn.starts("meet"))
	assert.Equal(t, []string{"second lock: bring out the vibraphone"}, drawn.texts("note"))
	drawn = readSVG(t, v.drawSystem(v.frame(3, systems, wide)))
	assert.Empty(t, drawn.texts("label"), "the end has no label")
}

// 3+3 in bars of eight, cut at each barline after 3, 3 and 2 pulses; the section ends a
// pulse into the second group of its second bar.
func TestACutGroupHasThePulsesItIsLeft(t *testing.T) {
	cut := layer("Winch", "", []int{3, 3})
	cut.Loop, cut.CutEvery = score.CutBars, 1
	s := section(score.PlainSignature(4, 4), 1, cut, layer("Bell", "", []int{4}))
	s.LengthRule = score.LengthRule{Kind: score.Pulses, N: 12}
	v := gather(settled(t, 8, s), 0, nil)
	systems := v.systems(wide)
	require.Len(t, systems, 1)
	drawn := readSVG(t, v.drawSystem(v.frame(0, systems, wide)))
	assert.Equal(t, []string{"3", "3", "2", "3", "1", "4", "4", "4"}, drawn.texts("size"))
}

// The first bar of the composite, by hand from onsets 0 3 5 7 and 0 3 6 8: both,
// both at 3, then a, b, a, b; both again at the next bar's start.
func TestComposite(t *testing.T) {
	v := gather(settled(t, 8, round()), 0, nil)
	systems := v.systems(wide)
	drawn := readSVG(t, v.drawComposite(v.frame(0, systems, wide), v.strikes()))
	assert.Equal(t, []string{"2", "2", "a", "b", "a", "b", "2"}, drawn.texts("who")[:7])
	assert.Contains(t, drawn[0].attr["aria-label"], "bar 1 beat 1 to bar 3 beat 5½: 2 2 a b a b 2 ", "those who cannot see it hear it")
	assert.Equal(t, xs(systems[0], 5, 6, 7, 8), drawn.starts("hit")[:4])
	assert.Equal(t, xs(systems[0], 0, 3, 10), drawn.starts("hit both")[:3])
}

// 3+2+2+3 on a clock of ten: struck at 1, 4, 6, 8; the first at the top, the
// sixth at the bottom.
func TestClock(t *testing.T) {
	v := gather(settled(t, 8, round()), 0, nil)
	faces := v.rows[0].faces()
	require.Len(t, faces, 1)
	drawn := readSVG(t, faces[0])
	var at []string
	for _, e := range drawn {
		if e.class == "place ink0" {
			at = append(at, e.attr["data-at"])
		}
		if e.class == "place ink0" && e.attr["data-at"] == "0" {
			assert.Equal(t, []string{"110", "40"}, []string{e.attr["cx"], e.attr["cy"]})
		}
		if e.class == "place ink0" && e.attr["data-at"] == "5" {
			assert.Equal(t, []string{"110", "180"}, []string{e.attr["cx"], e.attr["cy"]})
		}
	}
	assert.Equal(t, []string{"0", "3", "5", "7"}, at)
	assert.Equal(t, []string{"1", "2", "3", "4", "5", "6", "7", "8", "9", "10"}, drawn.texts("count"))
	assert.Equal(t, []string{"3", "2", "2", "3"}, drawn.texts("size"))
	assert.Contains(t, faces[0], "Marimba: 3+2+2+3, 10 pulses, struck at 1 4 6 8")
}

// The arc of 3 in 2+3 is the longer way round: from 2/5 to all of the circle, a
// third of a pulse less.
func TestLargeArc(t *testing.T) {
	s := section(score.PlainSignature(5, 8), 1, layer("Lock", "", []int{2, 3}))
	s.LengthRule = score.LengthRule{Kind: score.Bars, N: 1}
	v := gather(settled(t, 8, s), 0, nil)
	svg := v.rows[0].faces()[0]
	arcs := regexp.MustCompile(`A85 85 0 (\d) 1`).FindAllStringSubmatch(svg, -1)
	require.Len(t, arcs, 2)
	assert.Equal(t, []string{"0", "1"}, []string{arcs[0][1], arcs[1][1]})
}

// The second cycle of 12 starts at 12: 2 eighths after the barline, 2 into the
// second cycle of 10; and so on by 2.
func TestDrift(t *testing.T) {
	v := gather(settled(t, 8, round()), 0, nil)
	rows, all := v.drift()
	assert.Equal(t, 22, all) // 6+5 cycles, twice
	assert.Equal(t, driftRow{Row: 1, Index: 1, Letter: "b", Layer: "Vibraphone", Number: 2, Where: []string{"bar 2 beat 2"},
		Drift: []string{"2 eighths late"}, Against: "2 of 10", Groups: "3+3+2+2+2"}, rows[3])
	assert.Equal(t, driftRow{Row: 0, Index: 1, Letter: "a", Layer: "Marimba", Number: 2, Where: []string{"bar 2 beat 1"},
		Drift: []string{"on the barline"}, Groups: "3+2+2+3"}, rows[2])
}

// Whatever a text holds, every figure stays well formed and the page has no
// element that the text asked for.
func TestHostileTexts(t *testing.T) {
	evil := `</script></style><img src=x onerror=alert(1)>]]>&"'{{.}}` + "\u202e水⛵שלום"
	s := round()
	s.Layers[0].Name, s.Plan[0].Text, s.Plan[0].Mark, s.Name = evil, evil, evil, evil
	p := settled(t, 8, s)
	p.Title, p.Subtitle, p.Composer, p.Arranger, p.Rights = evil, evil, evil, evil, evil
	figures, err := Figures(p)
	require.NoError(t, err)
	require.Len(t, figures, 6)
	for _, f := range figures {
		var b bytes.Buffer
		require.NoError(t, f.Write(&b))
		readSVG(t, b.String())
		assert.NotContains(t, b.String(), "<img")
	}
	var b bytes.Buffer
	require.NoError(t, Write(&b, p, Options{Sections: []Beside{{Chart: evil}}}))
	assert.NotContains(t, b.String(), "<img")
	assert.Equal(t, 2, strings.Count(b.String(), "</script>"), "the data and the player")
	assert.Equal(t, 1, strings.Count(b.String(), "</style>"))
	assert.NotContains(t, b.String(), "EventSource", "only a served page asks for anything")
	assert.NotContains(t, b.String(), "connect-src")
	b.Reset()
	require.NoError(t, WriteProblems(&b, []string{evil}, evil))
	assert.NotContains(t, b.String(), "<img")
	assert.Equal(t, 1, strings.Count(b.String(), "</script>"))
}

// Nothing in the page points outside it.
func TestSelfContained(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, Write(&b, settled(t, 8, round()), Options{}))
	assert.NotRegexp(t, `(src|href|url\()\s*=?\s*["']?(https?:|//)`, b.String())
	assert.NotContains(t, b.String(), "@import")
	assert.Contains(t, b.String(), "default-src 'none'")
	var again bytes.Buffer
	require.NoError(t, Write(&again, settled(t, 8, round()), Options{}))
	assert.Equal(t, b.String(), again.String(), "same input, same bytes")
}

// 20,000 attacks fit and one more does not: a cycle of one bar with 4 attacks
// in 5,000 bars, and one attack in the bar after.
func TestLimits(t *testing.T) {
	s := section(score.PlainSignature(4, 4), 1, layer("Lock", "", []int{2, 2, 2, 2}))
	s.LengthRule = score.LengthRule{Kind: score.Pulses, N: 8 * 5000}
	assert.NoError(t, Fits(settled(t, 8, s)))
	s.LengthRule.N++
	err := Fits(settled(t, 8, s))
	assert.ErrorAs(t, err, &TooMuch{})
	assert.ErrorContains(t, err, "20000 attacks")

	s = section(score.PlainSignature(4, 4), 1, layer("Lock", "", []int{200}))
	s.LengthRule = score.LengthRule{Kind: score.Pulses, N: 200_000}
	err = Fits(settled(t, 8, s))
	assert.ErrorContains(t, err, "20000 bars")
	s.Meter = score.Meter{score.PlainSignature(64, 4)}
	assert.NoError(t, Fits(settled(t, 8, s)))
	s.LengthRule.N++
	assert.ErrorContains(t, Fits(settled(t, 8, s)), "200000 pulses")
}

// Lines break at barlines; a bar longer than a line is broken at a pulse.
func TestLongBars(t *testing.T) {
	s := section(score.PlainSignature(64, 4), 1, layer("Lock", "", []int{3, 2}))
	s.LengthRule = score.LengthRule{Kind: score.Bars, N: 2}
	v := gather(settled(t, 8, s), 0, nil)
	from := beat.Time(0)
	for _, m := range []measures{wide, narrow, printed} {
		from = 0
		for _, sys := range v.systems(m) {
			assert.Equal(t, from, sys.from)
			assert.Greater(t, sys.to, sys.from)
			assert.LessOrEqual(t, sys.x(sys.to), m.width-m.right, m.name)
			from = sys.to
		}
		assert.Equal(t, beat.Time(256), from)
	}
}

// element is one element of a drawing.
type element struct {
	name, class, text string
	attr              map[string]string
}

type drawing []element

// readSVG parses a drawing strictly.
func readSVG(t *testing.T, svg string) drawing {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(svg))
	var all drawing
	for {
		token, err := d.Token()
		if err == io.EOF {
			return all
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			e := element{name: token.Name.Local, attr: map[string]string{}}
			for _, a := range token.Attr {
				e.attr[a.Name.Local] = a.Value
			}
			e.class = e.attr["class"]
			all = append(all, e)
		case xml.CharData:
			if n := len(all); n > 0 {
				all[n-1].text += strings.TrimSpace(string(token))
			}
		}
	}
}

func (d drawing) texts(class string) (all []string) {
	for _, e := range d {
		if e.name == "text" && e.class == class {
			all = append(all, e.text)
		}
	}
	return all
}

// starts returns the x of each stroke of a path.
func (d drawing) starts(class string) (all []string) {
	for _, e := range d {
		if e.name == "path" && e.class == class {
			for _, m := range regexp.MustCompile(`M([\d.-]+) `).FindAllStringSubmatch(e.attr["d"], -1) {
				all = append(all, m[1])
			}
		}
	}
	return all
}

// xs returns where eighths of the round stand.
func xs(sys system, eighths ...beat.Time) (all []string) {
	for _, t := range eighths {
		all = append(all, unit(15000+78400*int(t-sys.from)/30).String())
	}
	return all
}
