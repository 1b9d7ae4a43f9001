package bar

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// testGrid holds 128ths, and ninths, fifths, sevenths and elevenths of them.
const testGrid beat.Grid = 128 * 9 * 5 * 7 * 11

// drawing is one bar of one voice as a test draws it: a sign a step, x for an
// attack, = where it goes on (over the left barline where the bar begins so), .
// for silence; ~ at the end lets the last sound go on over the right barline.
type drawing struct {
	meter  string
	step   string // 1/8
	pulse  string // the step where none is given; "1/8 3:2" for a tuplet
	steps  string // x=x.
	groups string // sizes in steps, from the barline; "" for none
	before int    // so many steps of the first group lie before the barline

	byMeter, strict, plainSpelling bool // beams by the meter; spelling
	beamIn, beamOut, dry           bool
}

func signature(t *testing.T, text string) score.Signature {
	t.Helper()
	var sig score.Signature
	var counts []int
	for _, part := range strings.Split(text, "+") {
		count, unit, whole := strings.Cut(part, "/")
		n, err := strconv.Atoi(count)
		require.NoError(t, err)
		counts = append(counts, n)
		if whole {
			u, err := strconv.Atoi(unit)
			require.NoError(t, err)
			sig.Terms = append(sig.Terms, score.Term{Groups: counts, Unit: u})
			counts = nil
		}
	}
	return sig
}

func fraction(t *testing.T, text string) beat.Span {
	t.Helper()
	num, den, _ := strings.Cut(text, "/")
	n, err := strconv.Atoi(num)
	require.NoError(t, err)
	d, err := strconv.Atoi(den)
	require.NoError(t, err)
	return beat.Of(int64(n), int64(d))
}

func pulseOf(t *testing.T, text string) beat.Pulse {
	t.Helper()
	base, ratio, tuplet := strings.Cut(text, " ")
	p := beat.Plain(fraction(t, base))
	if tuplet {
		a, n, _ := strings.Cut(ratio, ":")
		p.Actual, _ = strconv.Atoi(a)
		p.Normal, _ = strconv.Atoi(n)
	}
	return p
}

func (d drawing) input(t *testing.T) *Input {
	t.Helper()
	if d.pulse == "" {
		d.pulse = d.step
	}
	sig := signature(t, d.meter)
	step := testGrid.Must(pulseOf(t, d.step).Span())
	steps, goesOn := strings.CutSuffix(d.steps, "~")
	v := VoiceInput{Voice: &VoicePlan{Staff: 1, Number: 1}, Pulse: pulseOf(t, d.pulse), ByGroup: !d.plainSpelling && d.groups != "", BeamIn: d.beamIn, BeamOut: d.beamOut, Dry: d.dry}
	v.Unit = testGrid.Must(v.Pulse.Span())
	for i, sign := range steps {
		at := beat.Time(i) * step
		switch {
		case sign == 'x' || sign == '=' && i == 0:
			v.Segments = append(v.Segments, Segment{At: at, Length: step, TieIn: sign == '='})
		case sign == '=':
			v.Segments[len(v.Segments)-1].Length += step
		}
	}
	if goesOn {
		v.Segments[len(v.Segments)-1].TieOut = true
	}
	at := -beat.Time(d.before) * step
	for _, size := range strings.FieldsFunc(d.groups, func(r rune) bool { return r == '+' }) {
		n, err := strconv.Atoi(size)
		require.NoError(t, err)
		g := GroupPart{At: at, End: at + beat.Time(n)*step}
		attacks := 0
		for _, s := range v.Segments {
			if !s.TieIn && g.At <= s.At && s.At < g.End {
				attacks++
			}
		}
		g.Lone = attacks <= 1
		v.Groups, at = append(v.Groups, g), g.End
	}
	return &Input{Signature: sig, MetricGrid: NewMetricGrid(sig, testGrid), Numbers: true, Voices: []VoiceInput{v}}
}

func (d drawing) measure(t *testing.T) *sheet.Measure {
	t.Helper()
	w := Writer{NoteValues: NoteValues{Grid: testGrid}, ByMeter: d.byMeter, Strict: d.strict}
	in := d.input(t)
	m, _, err := w.Write(in)
	require.NoError(t, err, "%+v", d)
	for _, e := range m.Voices[0].Events {
		if n, ok := e.(*sheet.Note); ok && len(n.Beams) > 0 {
			require.Len(t, n.Beams, n.Value.Flags(), "%+v", d)
			require.NotContains(t, n.Beams, sheet.NoBeam, "a beamed note has a beam or hook at each level: %+v", d)
		}
	}
	if v := in.Voices[0]; !strings.HasPrefix(d.steps, "=") && !strings.HasSuffix(d.steps, "~") && !d.beamIn && !d.beamOut && len(v.Segments) > 0 {
		s := &sheet.Sheet{Grid: testGrid, Bars: 1}
		p := sheet.NewPart(sheet.Part{Name: "Test"}, func(yield func(*sheet.Bar) bool) { yield(&sheet.Bar{Number: 1, Measure: m}) })
		require.NoError(t, sheet.Check(s, &p), "%+v", d)
	}
	return m
}

// rhythm is the bar as Dump writes it.
func (d drawing) rhythm(t *testing.T) string {
	t.Helper()
	return sheet.Rhythm(&d.measure(t).Voices[0])
}
