package main

import (
	"bytes"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/heard"
	"tieover/score/spec"
)

// hostileNames are names that a file may have and YAML, or the spec, might take
// for something else.
var hostileNames = []string{
	"null", "Null", "NULL", "~", "on", "off", "yes", "No", "y", "true", "False", "- x", "a: b", "a:", "x #y", `"q"`, "it's", "'", "1", "1.5",
	".inf", ".nan", "=", "<<", "? a", "*a", "&a", "!a", "|", ">", "%a", "@a", "[a]", "{a: b}", "a, b", "a+b", "---", "--- a", "...", "barline",
	"bar 3", "end", "start", "all", "Composite", "", " ", "\u200b", "\ufeffx", "e\u0301", "\U0001F600", "Piano, voice 1", "Piano", "Piano", "Piano (2)",
	"Violin 1", "Snare Drum", "Part 1", strings.Repeat("Gate ", 40), "a\\nb", "a\tb",
}

// A pitch, or a tone that a spec cannot spell: three flats, a quarter tone, an
// octave out of its reach.
func drawPitch(t *rapid.T) string {
	step := rapid.SampledFrom([]string{"A", "B", "C", "C", "E"}).Draw(t, "step")
	alter := rapid.SampledFrom([]string{"", "", "", "", "<alter>1</alter>", "<alter>-1</alter>", "<alter>-3</alter>", "<alter>0.5</alter>"}).Draw(t, "alter")
	octave := rapid.SampledFrom([]int{4, 4, 4, 5, 3, 0, 9}).Draw(t, "octave")
	return fmt.Sprintf("<pitch><step>%s</step>%s<octave>%d</octave></pitch>", step, alter, octave)
}

func drawDrum(t *rapid.T) string {
	at := rapid.SampledFrom([]string{"C5", "G5", "F4", "E4"}).Draw(t, "shown")
	return fmt.Sprintf("<unpitched><display-step>%c</display-step><display-octave>%c</display-octave></unpitched>", at[0], at[1])
}

// drawForeign writes a score as another program might: names of all kinds,
// chords with a note twice, voices, bars of any filling.
func drawForeign(t *rapid.T) string {
	var list, body strings.Builder
	bars := rapid.IntRange(1, 4).Draw(t, "bars")
	for i := range rapid.SampledFrom([]int{1, 1, 2, 3}).Draw(t, "parts") {
		var name strings.Builder
		xmlEscape(&name, rapid.SampledFrom(hostileNames).Draw(t, "name"))
		fmt.Fprintf(&list, `<score-part id="P%d"><part-name>%s</part-name></score-part>`, i, name.String())
		fmt.Fprintf(&body, `<part id="P%d">`, i)
		tone := drawPitch
		if rapid.IntRange(0, 3).Draw(t, "drums") == 0 {
			tone = drawDrum
		}
		voices := rapid.SampledFrom([]int{1, 1, 2}).Draw(t, "voices")
		divisions := rapid.SampledFrom([]int{1, 2, 3, 4, 12}).Draw(t, "divisions")
		for b := range bars {
			fmt.Fprintf(&body, `<measure number="%d">`, b+1)
			if b == 0 {
				fmt.Fprintf(&body, "<attributes><divisions>%d</divisions><time><beats>3</beats><beat-type>4</beat-type></time></attributes>", divisions)
			}
			for v := range voices {
				if v > 0 {
					fmt.Fprintf(&body, "<backup><duration>%d</duration></backup>", 3*divisions)
				}
				for left := 3 * divisions; left > 0; {
					length := min(left, rapid.IntRange(1, 4).Draw(t, "length"))
					left -= length
					chord := rapid.SampledFrom([]int{0, 1, 1, 1, 2, 3, 17}).Draw(t, "chord")
					if chord == 17 && rapid.IntRange(0, 15).Draw(t, "cluster") > 0 {
						chord = 1
					}
					for k := range max(1, chord) {
						sound := "<rest/>"
						if chord > 0 {
							sound = tone(t)
						}
						if k > 0 {
							sound = "<chord/>" + sound
						}
						fmt.Fprintf(&body, "<note>%s<duration>%d</duration><voice>%d</voice></note>", sound, length, v+1)
					}
				}
			}
			body.WriteString("</measure>")
		}
		body.WriteString("</part>")
	}
	return `<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><part-list>` + list.String() + "</part-list>" + body.String() + "</score-partwise>"
}

func xmlEscape(b *strings.Builder, text string) {
	b.WriteString(strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(text))
}

// Whatever find writes, the program reads, and it sounds like the input; what
// it cannot write it says, and writes nothing.
func TestFindWritesWhatIsRead(t *testing.T) {
	dir := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		file := filepath.Join(dir, "foreign.musicxml")
		require.NoError(t, os.WriteFile(file, []byte(drawForeign(t)), 0o600))
		checkFound(t, file)
	})
}

// checkFound holds find --all on a score to the law.
func checkFound(t require.TestingT, file string) {
	var out, messages bytes.Buffer
	s := streams{strings.NewReader(""), &out, &messages}
	code := run([]string{"find", "--all", file}, s)
	if code != done {
		require.Equal(t, wrongData, code, messages.String())
		require.Empty(t, out.String())
		require.Regexp(t, `nothing sounds|a spec holds|no common pulse|lasts`, messages.String())
		return
	}
	p, problems := spec.Read([]spec.File{{Name: "found.yaml", Text: out.Bytes()}})
	require.NotNil(t, p, "%v\n%s", problems, out.String())
	read, err := readScore(s, file)
	require.NoError(t, err)
	want, got := onsets(read), specOnsets(p.Sections[0])
	require.Equal(t, want, got, out.String())
}

// notesOf is a score of one bar for each part: quarters, the tones of a chord
// joined by blanks.
func notesOf(parts map[string][]string) string {
	var list, body strings.Builder
	for i, name := range slices.Sorted(maps.Keys(parts)) {
		var escaped strings.Builder
		xmlEscape(&escaped, name)
		fmt.Fprintf(&list, `<score-part id="P%d"><part-name>%s</part-name></score-part>`, i, escaped.String())
		fmt.Fprintf(&body, `<part id="P%d"><measure number="1"><attributes><divisions>1</divisions></attributes>`, i)
		for _, chord := range parts[name] {
			for k, tone := range strings.Fields(chord) {
				joined := ""
				if k > 0 {
					joined = "<chord/>"
				}
				fmt.Fprintf(&body, "<note>%s<pitch><step>%c</step><octave>%s</octave></pitch><duration>1</duration><voice>1</voice></note>", joined, tone[0], tone[1:])
			}
		}
		body.WriteString("</measure></part>")
	}
	return `<score-partwise version="4.0"><part-list>` + list.String() + "</part-list>" + body.String() + "</score-partwise>"
}

// What a spec has no room for is said, with the place, and nothing is written;
// a unison of two voices is one note.
func TestFindSaysWhatASpecCannot(t *testing.T) {
	many := map[string][]string{}
	for i := range 65 {
		many[fmt.Sprintf("Gate %d", i+1)] = []string{"C4", "D4"}
	}
	cluster := strings.Fields("C3 D3 E3 F3 G3 A3 B3 C4 D4 E4 F4 G4 A4 B4 C5 D5 E5")
	for _, c := range []struct {
		parts map[string][]string
		code  int
		want  string
	}{
		{map[string][]string{"Lock": {"A4 A4", "B4", "A4", "B4"}}, done, "pitches: A4 B4\n"},
		{map[string][]string{"null": {"A4", "B4"}}, done, `- name: "null"`},
		{map[string][]string{"barline": {"A4", "B4"}}, done, "- name: barline (2)"},
		{map[string][]string{"Lock": {"A4", strings.Join(cluster[:16], " ")}}, done, "C3+D3+E3"},
		{map[string][]string{"Lock": {"A4", strings.Join(cluster, " ")}}, wrongData,
			"Lock, bar 1 beat 2: a chord of 17 notes; a spec holds 16, so divide it among several parts or voices"},
		{many, wrongData, "65 parts and voices; a spec holds 64, so take parts of the score with --part"},
	} {
		file := filepath.Join(t.TempDir(), "foreign.musicxml")
		require.NoError(t, os.WriteFile(file, []byte(notesOf(c.parts)), 0o600))
		code, out, messages := call(t, newFindCmd, "", file, "--all")
		require.Equal(t, c.code, code, messages)
		require.Contains(t, out+messages, c.want)
		require.Equal(t, code == done, out != "")
		checkFound(t, file)
	}
}

// onsets lists each moment of attack with the keys that sound there and how
// long, in all parts. What has no key is an x, and so are pitches of a part that has others
// without one, which the spec writes as a rhythm.
func onsets(s *heard.Score) []string {
	at := map[beat.Span]map[string]bool{}
	for _, part := range s.Parts {
		_, drums := soundsOfPart(part)
		for _, a := range part.Attacks {
			if at[a.Onset] == nil {
				at[a.Onset] = map[string]bool{}
			}
			for _, tone := range a.Tones {
				key, ok := tone.Key()
				if !ok || drums || tone.Step == 0 {
					at[a.Onset]["x for "+a.Length.String()] = true
					continue
				}
				at[a.Onset][strconv.Itoa(key)+" for "+a.Length.String()] = true
			}
		}
	}
	return sortedMoments(at)
}

// soundsOfPart reports what a part has: pitches a spec can spell, other sounds.
func soundsOfPart(part *heard.Part) (pitches, others bool) {
	for _, a := range part.Attacks {
		for _, tone := range a.Tones {
			key, ok := tone.Key()
			if ok && tone.Step != 0 && key >= 0 && key < 128 {
				pitches = true
			} else {
				others = true
			}
		}
	}
	return pitches, others
}

func specOnsets(s *score.Section) []string {
	at := map[beat.Span]map[string]bool{}
	for i := range s.Layers {
		for time, a := range s.Attacks(i) {
			span := s.Grid.Span(time)
			if at[span] == nil {
				at[span] = map[string]bool{}
			}
			for _, tone := range a.Tones {
				sound := "x"
				if tone.IsPitched() {
					sound = strconv.Itoa(tone.Key())
				}
				at[span][sound+" for "+s.Grid.Span(a.Length).String()] = true
			}
		}
	}
	return sortedMoments(at)
}

func sortedMoments(at map[beat.Span]map[string]bool) []string {
	var moments []beat.Span
	for m := range at {
		moments = append(moments, m)
	}
	slices.SortFunc(moments, beat.Span.Cmp)
	var lines []string
	for _, m := range moments {
		var keys []string
		for k := range at[m] {
			keys = append(keys, k)
		}
		slices.Sort(keys)
		lines = append(lines, m.String()+" "+strings.Join(keys, "+"))
	}
	return lines
}
