package spec

import (
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/process"
	"tieover/score/processor"
	"tieover/score/source"
)

// everyKey shows every key at once; it is no piece. A layer that enters at a
// realignment cannot be one of those that make it, and a pitched instrument
// needs pitches.
const everyKey = `title: Lock Keeper's Round
section: B
tempo: 132
meter: 5/4
pulse: 1/8
length: 2 realignments
end: stop
key: none
realign: [Marimba, Vibraphone]
layers:
  - name: Marimba
    short: Mar.
    instrument: marimba
    groups: 3+2+2+3
    pitches: E5 B4 G4 D5
    restart: cycle
    dynamic: mf
  - name: Vibraphone
    instrument: vibraphone
    groups: 3+3+2+2+2
    strike: hold
    figures: {3: x.x, 2: xx}
    accent: group
    tails: tied
    enters: realignment 1
    offset: 2
    loop: run
    pulse: 1/16
    process: {grow: {group: 1, by: 1, from: 2}, until: realignment}
  - name: Bass clarinet
    box: x==x=x..x=.x==
plan:
  - {at: realignment 1, mark: C, text: bass enters}
`

func TestEveryKeyAtOnce(t *testing.T) {
	_, problems := Read([]File{{"all.yaml", []byte(everyKey)}})
	assert.Equal(t, []string{
		`9: layer "Vibraphone" enters or leaves at a realignment, so it cannot decide where that is`,
		"18: layer \"Vibraphone\" has no pitches for its vibraphone",
	}, found(problems))

	repaired := strings.NewReplacer("enters: realignment 1\n", "enters: bar 2\n", "realign: [Marimba, Vibraphone]\n", "realign: [Marimba, Bass clarinet]\n",
		"    strike: hold\n", "    strike: hold\n    pitches: A4 G4\n", "from: 2}", "from: 2, stop-when-empty: yes}").Replace(everyKey)
	p := readText(t, repaired)
	s := p.Sections[0]
	v := s.Layers[1]
	assert.Equal(t, []int{0, 2}, s.Set)
	assert.Equal(t, beat.Plain(beat.Of(1, 16)), v.Pulse)
	assert.Equal(t, int64(2), v.Offset)
	assert.Equal(t, score.UntilRealignment, v.Until)
	assert.Equal(t, []score.Sign{'x', '.', 'x'}, v.Figures[3])
	assert.Equal(t, score.Process{Pos: source.Pos{File: "test.yaml", Line: 30, Column: 14}, Rule: process.Rule{Kind: process.Grow, By: 1, Group: 1, From: 2, After: 1, Hold: true}}, v.Process[0])
	assert.Equal(t, "C", s.Plan[0].Mark)
	assert.Len(t, s.Layers[2].Patterns[0].Groups, 5, "from attack to attack")
	// Ten eighths against fourteen: lcm 70, twice.
	assert.Equal(t, p.Grid.Must(beat.Of(140, 8)), s.Length)
}

// TestLayerValues reads each key of a layer that no other test looks at.
func TestLayerValues(t *testing.T) {
	p := readText(t, `title: Towpath
length: 8 bars
layers:
  - name: Hands
    player: Drummer
    instrument: drum set
    groups: [3+2, 2+2+1]
    pitches: [snare, kick snare]
    restart: realignment
    touches: ghost accent marcato staccato accent+tenuto plain
    tails: cut
    pan: -30
    leaves: bar 7 beat 2
    loop: cut every 2 bars
    process: [{shift: {by: -2, after: 3}}, {retrograde: {on: every 3rd}}, {append: {size: 2}}]
    except: [{cycle: 2, groups: 5}, {bar: 3, rest: yes}, {cycle: 4, pitches: kick}]
    syllables: {2: ta ka}
  - name: Voice
    instrument: alto
    line: D4 2, rest 1, E4 1/4
`)
	l := p.Sections[0].Layers[0]
	assert.Equal(t, "Drummer", l.Player)
	assert.Len(t, l.Patterns, 2)
	assert.Equal(t, score.RestartRealignment, l.Restart)
	assert.Equal(t, []score.Touch{score.Ghost, score.Accented, score.Marcato, score.Staccato, score.Accented | score.Tenuto, score.Plain}, l.Touches)
	assert.Equal(t, score.CutTails, l.Tails)
	assert.Equal(t, -30, *l.Pan)
	assert.Equal(t, 2, l.LeaveAt.Beat)
	assert.Equal(t, 2, l.CutEvery)
	require.Len(t, l.Process, 3)
	assert.Equal(t, int64(-2), l.Process[0].By)
	assert.Equal(t, 3, l.Process[0].After)
	assert.Equal(t, process.Retrograde, l.Process[1].Kind)
	assert.Equal(t, 3, l.Process[1].After)
	assert.Equal(t, 2, l.Process[2].Size)
	require.Len(t, l.Except, 3)
	assert.Equal(t, []score.Item{{Size: 5}}, l.Except[0].Pattern.Groups)
	assert.True(t, l.Except[1].Rest)
	assert.Equal(t, 3, l.Except[1].Bar)
	assert.Equal(t, score.Chord{{Drum: 3}}, l.Except[2].Series[0])
	assert.Equal(t, "ta ka", l.Syllables[2])
	v := p.Sections[0].Layers[1]
	require.Len(t, v.Line, 3)
	assert.Equal(t, p.Grid.Must(beat.Of(1, 4)), v.Line[0].Length)
	assert.Empty(t, v.Line[1].Tones)
}

// TestBareTexts: what YAML would make numbers, truths and dates of is text.
func TestBareTexts(t *testing.T) {
	p := readText(t, "title: 1984\nsubtitle: No\ncomposer: 2001-01-01\nrights: 1.0\nsection: off\nlength: 2 bars\nlayers:\n  - {name: yes, groups: 5}\n  - {name: 3_2, groups: 7}\n")
	assert.Equal(t, []string{"1984", "No", "2001-01-01", "1.0", "off", "yes", "3_2"},
		[]string{p.Title, p.Subtitle, p.Composer, p.Rights, p.Sections[0].Name, p.Sections[0].Layers[0].Name, p.Sections[0].Layers[1].Name})
}

// TestGrid: the coarsest grid that holds all, over all files.
func TestGrid(t *testing.T) {
	tail := func(pulse string) string {
		return "title: Towpath\nlength: 2 bars\nlayers:\n  - {name: Bell, pulse: " + pulse + ", groups: 2+2}\n"
	}
	for _, c := range []struct {
		pulses []string
		grid   beat.Grid
	}{
		{[]string{"1/4"}, 8}, // the section's own pulse is an eighth
		{[]string{"1/8 in 3:2"}, 24}, {[]string{"1/16 in 5:4"}, 40}, {[]string{"1/8 in 3:2", "1/16 in 5:4"}, 120}, {[]string{"1/16 in 7:4", "1/32"}, 224},
	} {
		var files []File
		for i, pulse := range c.pulses {
			text := tail(pulse)
			if i > 0 {
				text = strings.Replace(text, "Bell", "Gate", 1)
			}
			files = append(files, File{Name: pulse, Text: []byte(text)})
		}
		p, problems := Read(files)
		require.Empty(t, problems)
		assert.Equal(t, c.grid, p.Grid, c.pulses)
	}
	p := readText(t, "title: Towpath\nlength: 2 bars\nlayers:\n  - {name: Bell, groups: 3+2, figures: {3: x=xx..}}\n")
	assert.Equal(t, beat.Grid(16), p.Grid, "half pulses of a figure")
}

// TestPlacesInValues: a mistake deep in a value is shown where it stands, on
// its own line, in characters.
func TestPlacesInValues(t *testing.T) {
	for _, c := range []struct {
		text         string
		line, column int
	}{
		{"    pitches: E5 B4\n      G4 H5 A4\n", 6, 10},
		{"    pitches: \"E5 H5\"\n", 5, 18},
		{"    pitches: 'E5 H5'\n", 5, 18},
		{"    pitches: \"E5\\u0020H5\"\n", 5, 14}, // an escape: the value's start
		{"    pitches: [E5 B4, A4 H5]\n", 5, 25},
		{"    pitches: F♯5 B♭4 H5\n", 5, 22},
	} {
		text := "title: Towpath\nlayers:\n  - name: Bell\n    instrument: marimba\n" + c.text + "    groups: 3+2\n"
		_, problems := Read([]File{{"t.yaml", []byte(text)}})
		require.Len(t, problems, 1, c.text)
		assert.Equal(t, source.Pos{File: "t.yaml", Line: c.line, Column: c.column}, problems[0].Pos, c.text)
		assert.Equal(t, strings.Split(text, "\n")[c.line-1], problems[0].Line)
	}
}

// TestHarmless: what must be accepted.
func TestHarmless(t *testing.T) {
	for name, text := range map[string]string{
		"one document mark":   "---\ntitle: Towpath\nlayers:\n  - {name: Bell, groups: 3+2}\n",
		"comment before mark": "# quiet\n--- # begin\ntitle: Towpath\nlayers:\n  - {name: Bell, groups: 3+2}\n",
		"byte order mark":     "\uFEFFtitle: Towpath\nlayers:\n  - {name: Bell, groups: 3+2}\n",
		"CR LF":               "title: Towpath\r\nlayers:\r\n  - {name: Bell, groups: 3+2}\r\n",
		"tabs at line ends":   "title: Towpath\t\nlayers:\t\n  - {name: Bell, groups: 3+2}\t\n",
		"sharps in values":    "title: Towpath\nlayers:\n  - name: Bell\n    instrument: marimba\n    groups: 3+2\n    pitches: F#4 G##4 # comment\n",
		"a quoted number":     "title: \"Towpath #2\"\nlayers:\n  - {name: Bell, groups: 3+2}\n",
		"a long text":         "title: Towpath\nlayers:\n  - {name: Bell, groups: 3+2}\nplan:\n  - at: bar 1\n    text: >\n      quiet\n      water\n",
		"boxes of dots":       "title: Towpath\nlayers:\n  - name: Bell\n    box: ...x\n  - name: Gate\n    box: x...\n",
	} {
		t.Run(name, func(t *testing.T) {
			_, problems := Read([]File{{"t.yaml", []byte(text)}})
			assert.Empty(t, problems)
		})
	}
}

func TestWarningsOfAGoodPiece(t *testing.T) {
	p := readText(t, "title: Towpath\nlength: 2 bars\nlayers:\n  - {name: Bell, groups: 3+2, accent: group}\n")
	require.Len(t, p.Warnings, 1)
	assert.Equal(t, source.Pos{File: "test.yaml", Line: 4, Column: 39}, p.Warnings[0].Pos)
	assert.NotEmpty(t, p.Warnings[0].Line)
}

// TestHeavy: the largest files take no more than moments, also where every
// word is wrong.
func TestHeavy(t *testing.T) {
	const head = "title: Towpath\nlength: 2 bars\n"
	layer := head + "layers:\n  - name: Bell\n    instrument: marimba\n    groups: 3+2\n"
	const bell = "layers:\n  - {name: Bell, groups: 3+2}\n"
	for name, text := range map[string]string{
		"wrong pitches":    layer + "    pitches: " + strings.Repeat("H4 ", 340_000) + "\n",
		"pitches in lines": layer + "    pitches: E4" + strings.Repeat("\n      H4", 110_000) + "\n",
		"unknown keys":     layer + strings.Repeat("    colour: red\n", 60_000),
		"many groups":      head + "layers:\n  - {name: Bell, groups: " + strings.Repeat("1+", 500_000) + "1}\n",
		"glued comments":   head + bell + "realign:\n" + strings.Repeat("  - Bell #x\n", 80_000),
		"unknown names":    head + "realign: [" + strings.Repeat("B,", 500_000) + "C]\n" + bell,
		"plan entries":     head + bell + "plan:\n" + strings.Repeat("  - {at: bar 1, text: go}\n", 40_000),
		"plan marks":       head + bell + "plan:\n" + strings.Repeat("  - {at: bar 1, mark: A1}\n", 40_000),
		"exceptions":       layer + "    pitches: E4\n    except:\n" + strings.Repeat("      - {cycle: 1, rest: yes}\n", 30_000),
		"a long line":      head + "layers:\n  - {name: Bell, line: [" + strings.Repeat("x 1,", 250_000) + "x 1]}\n",
		"flow brackets":    head + "layers: " + strings.Repeat("[", 5_000) + strings.Repeat("]", 5_000) + "\n",
		"open brackets":    head + "realign: [\n" + strings.Repeat("  b: [\n", 140_000),
		"open quotes":      head + "realign: 'x\n" + strings.Repeat("  b: \"\n    'c\n", 60_000),
		"glued hyphens":    head + "layers: [\n" + strings.Repeat("-name: Bell\n", 80_000),
		"meters":           head + bell + "meter: [" + strings.Repeat("4-4,", 200_000) + "4/4]\n",
		"long name":        "title: " + strings.Repeat("canal", 200_000) + "\n" + bell,
	} {
		t.Run(name, func(t *testing.T) {
			require.LessOrEqual(t, len(text), MaxSize)
			start := processor.Time()
			_, problems := Read([]File{{"heavy.yaml", []byte(text)}})
			assert.LessOrEqual(t, len(problems), maxProblems+1)
			took := processor.Time() - start
			assert.Less(t, took, time.Minute)
			t.Log(len(problems), took.Round(time.Millisecond))
		})
	}
}

// TestSections: demo sections of the project are read without a problem.
func TestSections(t *testing.T) {
	dirs, err := os.ReadDir("../../testdata/sections")
	require.NoError(t, err)
	for _, d := range dirs {
		text, err := os.ReadFile("../../testdata/sections/" + d.Name() + "/section.yaml")
		if os.IsNotExist(err) {
			continue
		}
		require.NoError(t, err)
		_, problems := Read([]File{{d.Name(), text}})
		assert.Empty(t, problems)
	}
}
