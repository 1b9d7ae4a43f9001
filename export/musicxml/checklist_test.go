package musicxml

import (
	"bytes"
	"fmt"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a copyist checks before a score goes to a player. Bar fill, values,
// beams, ties, tuplets, accidentals and identifiers are the lint's, which all
// sheets and sections pass; here is what it does not ask.

func TestHeaderIsComplete(t *testing.T) {
	raw := writtenDoc(t, everything(), Options{})
	assert.True(t, bytes.HasPrefix(raw, []byte(`<?xml version="1.0" encoding="UTF-8"?>`+"\n<!DOCTYPE score-partwise PUBLIC")))
	doc := parse(t, raw)
	assert.Equal(t, "4.0", doc.attr("version"))
	assert.Equal(t, `Lock & "Weir" <3>`, doc.text("movement-title"))
	assert.Equal(t, []string{`<creator type="composer">A. Keeper</creator>`, `<creator type="arranger">B. Barge</creator>`}, doc.shapes("creator"))
	assert.Equal(t, "© the keepers", doc.text("rights"))
	assert.Equal(t, []string{"tieover"}, doc.texts("software"), "no version, so that the same spec gives the same bytes")
	assert.Empty(t, doc.all("encoding-date"))
	assert.Equal(t, []string{"2031-05-30"}, parse(t, writtenDoc(t, everything(), Options{Date: "2031-05-30"})).texts("encoding-date"))
	assert.Equal(t, []string{
		`<supports element="accidental" type="yes"/>`, `<supports element="beam" type="yes"/>`, `<supports element="stem" type="no"/>`,
		`<supports attribute="new-page" element="print" type="yes" value="yes"/>`, `<supports attribute="new-system" element="print" type="yes" value="yes"/>`,
	}, doc.shapes("supports"))
	assert.Equal(t, []string{"title", "subtitle", "composer", "arranger", "rights"}, doc.texts("credit-type"))
	for i, want := range []string{`Lock & "Weir" <3>`, "for keepers", "A. Keeper", "B. Barge", "© the keepers"} {
		assert.Equal(t, want, doc.texts("credit-words")[i], "the same texts as in the metadata")
	}
}

func TestBreaksAreOnlyClaimedWhereTheyAre(t *testing.T) {
	supports := parse(t, writtenDoc(t, stand(), Options{})).shapes("supports")
	assert.Contains(t, supports, `<supports attribute="new-system" element="print" type="no"/>`)
	assert.Contains(t, supports, `<supports attribute="new-page" element="print" type="no"/>`)
	supports = parse(t, writtenDoc(t, towpath(), Options{})).shapes("supports")
	assert.Contains(t, supports, `<supports attribute="new-system" element="print" type="yes" value="yes"/>`)
	assert.Contains(t, supports, `<supports attribute="new-page" element="print" type="no"/>`)
}

func TestPartsHaveNamesGroupsAndSounds(t *testing.T) {
	doc := parse(t, writtenDoc(t, everything(), Options{}))
	assert.Equal(t, []string{"Flute", "Reed 2", "Drum Set", "Clap", "Piano"}, doc.texts("part-name"))
	assert.Equal(t, []string{"Fl.", "Dr.", "Pno."}, doc.texts("part-abbreviation"))
	var order []string
	for _, c := range doc.all("part-list")[0].Children {
		order = append(order, c.name()+" "+c.attr("id")+c.attr("type"))
	}
	assert.Equal(t, []string{"part-group start", "score-part P1", "score-part P2", "part-group stop", "score-part P3", "score-part P4", "score-part P5"}, order,
		"two woodwinds stand under a bracket")
	flute := doc.all("score-part")[0]
	assert.Equal(t, []string{"wind.flutes.flute"}, flute.texts("instrument-sound"))
	assert.Equal(t, []string{"74"}, flute.texts("midi-program"), "General MIDI: flute is 74")
	assert.Contains(t, doc.shapes("miscellaneous-field"), `<miscellaneous-field name="layers of P3">Hands, Feet</miscellaneous-field>`)
}

// General MIDI percussion keys, one more in the file since it counts from 1.
func TestPercussionIsComplete(t *testing.T) {
	doc := parse(t, writtenDoc(t, everything(), Options{}))
	keys := map[string]string{}
	kit := doc.all("score-part")[2]
	for i, name := range kit.texts("instrument-name") {
		m := kit.all("midi-instrument")[i]
		assert.Equal(t, "10", m.text("midi-channel"))
		keys[name] = m.text("midi-unpitched")
	}
	for name, key := range map[string]string{"Bass Drum": "37", "Snare Drum": "39", "Closed Hi-hat": "43", "Open Hi-hat": "47", "Crash Cymbal": "50", "Ride Cymbal": "52"} {
		assert.Equal(t, key, keys[name], name)
	}
	bar := doc.part(2)[0]
	first := bar.all("note")[0]
	assert.Equal(t, "x", first.text("notehead"))
	assert.Equal(t, "G5", first.text("display-step")+first.text("display-octave"), "a closed hi-hat above the staff")
	assert.Equal(t, "up", first.text("stem"))
	var feet []string
	for _, n := range bar.all("note") {
		if n.text("voice") == "2" {
			feet = append(feet, n.text("display-step")+n.text("display-octave")+" "+n.text("stem"))
		}
	}
	assert.Equal(t, []string{"F4 down", "D4 ", "F4 down"}, feet, "the rest of the feet stands low")
	clap := doc.part(3)[0]
	assert.Equal(t, "1", clap.text("staff-lines"))
	assert.Equal(t, []string{"E", "E", "E"}, clap.texts("display-step"))
}

func TestMoreThanFifteenPitchedPartsUseMorePorts(t *testing.T) {
	doc := parse(t, writtenDoc(t, manyParts(), Options{}))
	taken := map[string]bool{}
	for _, p := range doc.all("score-part") {
		port := "1"
		if d := p.all("midi-device"); len(d) > 0 {
			port = d[0].attr("port")
		}
		channel := p.text("midi-channel")
		assert.NotEqual(t, "10", channel)
		n, err := strconv.Atoi(channel)
		require.NoError(t, err)
		assert.True(t, n >= 1 && n <= 16)
		assert.False(t, taken[port+" "+channel], "port %s channel %s is taken twice", port, channel)
		taken[port+" "+channel] = true
	}
}

func TestAttributes(t *testing.T) {
	doc := parse(t, writtenDoc(t, everything(), Options{}))
	want := func(part, bar int, shapes ...string) {
		t.Helper()
		var got []string
		for _, c := range doc.part(part)[bar].all("attributes")[0].Children {
			got = append(got, c.shape())
		}
		assert.Equal(t, shapes, got)
	}
	four := `<time><beats>4</beats><beat-type>4</beat-type></time>`
	none := `<key><fifths>0</fifths><mode>none</mode></key>`
	want(0, 0, `<divisions>60</divisions>`, none, four, `<clef><sign>G</sign><line>2</line></clef>`)
	want(0, 1, `<time><beats>3+2+3</beats><beat-type>8</beat-type></time>`)
	want(0, 2, `<time><beats>2</beats><beat-type>4</beat-type><beats>3</beats><beat-type>8</beat-type></time>`)
	want(1, 0, `<divisions>60</divisions>`, `<key><fifths>2</fifths><mode>dorian</mode></key>`, four, `<clef><sign>G</sign><line>2</line></clef>`,
		`<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic><octave-change>-1</octave-change></transpose>`)
	want(3, 0, `<divisions>60</divisions>`, none, four, `<clef><sign>percussion</sign></clef>`, `<staff-details><staff-lines>1</staff-lines></staff-details>`)
	want(4, 0, `<divisions>60</divisions>`, none, four, `<staves>2</staves>`, `<part-symbol top-staff="1" bottom-staff="2">brace</part-symbol>`,
		`<clef number="1"><sign>G</sign><line>2</line></clef>`, `<clef number="2"><sign>F</sign><line>4</line></clef>`)
}

// At concert pitch a part keeps only its octaves.
func TestConcertPitchKeepsOctaves(t *testing.T) {
	sheet := everything()
	sheet.Parts = sheet.Parts[1:2]
	sheet.Parts[0].Concert = true
	assert.Equal(t, []string{`<transpose><diatonic>0</diatonic><chromatic>0</chromatic><octave-change>-1</octave-change></transpose>`,
		`<transpose><diatonic>0</diatonic><chromatic>0</chromatic></transpose>`}, // the flute is where it sounds
		parse(t, writtenDoc(t, sheet, Options{})).shapes("transpose"))
}

// A tenor's clef reads an octave higher than it sounds: pitches in the file
// sound, and nothing transposes.
func TestOctaveClefs(t *testing.T) {
	sheet := towpath()
	sheet.Parts = sheet.Parts[:1]
	tenor := mustFind("tenor")
	sheet.Parts[0].Instrument = tenor
	sheet.Parts[0].Staves[0].Clef = tenor.Clef
	doc := parse(t, writtenDoc(t, sheet, Options{}))
	assert.Equal(t, []string{`<clef><sign>G</sign><line>2</line><clef-octave-change>-1</clef-octave-change></clef>`}, doc.shapes("clef"))
	assert.Empty(t, doc.all("transpose"))
}

func TestBarlinesAndRepeatsInEveryPart(t *testing.T) {
	doc := parse(t, writtenDoc(t, everything(), Options{}))
	for i := range doc.all("part") {
		bars := doc.part(i)
		edges := func(bar int) []string {
			var made []string
			for _, b := range bars[bar].all("barline") {
				if b.attr("location") != "middle" {
					made = append(made, b.shape())
				}
			}
			return made
		}
		assert.Empty(t, edges(0))
		assert.Equal(t, []string{`<barline location="right"><bar-style>light-light</bar-style></barline>`}, edges(1))
		assert.Equal(t, []string{
			`<barline location="left"><bar-style>heavy-light</bar-style><repeat direction="forward"/></barline>`,
			`<barline location="right"><bar-style>light-heavy</bar-style><repeat direction="backward" times="3"/></barline>`}, edges(3))
		assert.Equal(t, []string{`<barline location="right"><bar-style>light-heavy</bar-style></barline>`}, edges(4))
		assert.Equal(t, "yes", bars[2].all("print")[0].attr("new-system"))
		assert.Equal(t, "yes", bars[3].all("print")[0].attr("new-page"))
		assert.Equal(t, i == 0, strings.Contains(bars[3].shape(), ">3 times<"), "how often is said once")
	}
}

// In two-staff parts lines of the staves never share a number, and every note
// says its staff and a voice that belongs to it.
func TestTwoStaves(t *testing.T) {
	doc := parse(t, writtenDoc(t, everything(), Options{}))
	for _, bar := range doc.part(4) {
		for _, n := range bar.all("note") {
			assert.Equal(t, map[string]string{"1": "1", "5": "2"}[n.text("voice")], n.text("staff"))
		}
	}
	assert.Equal(t, []string{
		`<bracket type="start" number="1" line-end="down" line-type="solid"/>`, `<bracket type="start" number="5" line-end="down" line-type="solid"/>`,
		`<bracket type="stop" number="1" line-end="down" line-type="solid"/>`, `<bracket type="stop" number="5" line-end="down" line-type="solid"/>`,
	}, append(doc.part(4)[0].shapes("bracket"), doc.part(4)[1].shapes("bracket")...))
	assert.Equal(t, []string{"240"}, doc.part(4)[0].all("backup")[0].texts("duration"), "back by the whole bar")
}

// The lower voice of a staff has its marks below, hooks towards the staff.
func TestMarksOfTheLowerVoice(t *testing.T) {
	bar := parse(t, writtenDoc(t, everything(), Options{})).part(2)[0]
	var sides []string
	for _, d := range bar.all("direction") {
		hook := ""
		if b := d.all("bracket"); len(b) > 0 {
			hook = b[0].attr("line-end")
		}
		sides = append(sides, d.attr("placement")+" "+hook)
	}
	assert.Equal(t, []string{"above down", "above down", "below ", "below ", "below up", "below up"}, sides)
}

func TestNotesInDetail(t *testing.T) {
	doc := parse(t, writtenDoc(t, everything(), Options{}))
	one, two, three := doc.part(0)[0].all("note"), doc.part(0)[1].all("note"), doc.part(0)[2].all("note")
	assert.Equal(t, `<note><pitch><step>F</step><alter>1</alter><octave>4</octave></pitch><duration>60</duration><tie type="start"/><voice>1</voice><type>quarter</type><accidental>sharp</accidental><notations><tied type="start"/><articulations><accent placement="above"/></articulations></notations></note>`, one[0].shape())
	assert.Equal(t, `<note><chord/><pitch><step>B</step><alter>-1</alter><octave>4</octave></pitch><duration>60</duration><tie type="start"/><voice>1</voice><type>quarter</type><accidental>flat</accidental><notations><tied type="start"/></notations></note>`, one[1].shape())
	// The first of a triplet: a quarter among eighths names the unit.
	assert.Equal(t, `<time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes><normal-type>eighth</normal-type></time-modification>`, one[3].shapes("time-modification")[0])
	assert.Equal(t, `<tuplet type="start" number="1" bracket="yes" show-number="actual"/>`, one[3].shapes("tuplet")[0])
	assert.Equal(t, `<time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>`, one[6].shapes("time-modification")[0])
	assert.Equal(t, `<tuplet type="start" number="1" bracket="no" show-number="actual"/>`, one[7].shapes("tuplet")[0])
	assert.Equal(t, `<tuplet type="start" number="1" bracket="no" show-number="none"/>`, three[0].shapes("tuplet")[0])
	assert.Equal(t, `<tuplet type="start" number="1" bracket="yes" show-number="both"/>`, three[4].shapes("tuplet")[0], "on a rest, 5:3 written out")
	// Beams of a dotted eighth, a sixteenth back; a sixteenth forward, an eighth.
	var beams []string
	for _, n := range two {
		beams = append(beams, strings.Join(n.texts("beam"), "/"))
	}
	assert.Equal(t, []string{"", "begin", "end/backward hook", "begin/forward hook", "continue", "end"}, beams)
	assert.Equal(t, []string{`<accidental cautionary="yes" parentheses="yes">natural</accidental>`}, two[5].shapes("accidental"))
	assert.Equal(t, []string{"", "", "tenuto", "strong-accent", "", "accent"}, articulations(two))
	assert.Equal(t, []string{`<lyric number="1"><syllabic>single</syllabic><text>tá &amp; la</text></lyric>`},
		[]string{strings.ReplaceAll(doc.part(0)[3].all("lyric")[0].shape(), "&", "&amp;")})
	small := doc.part(3)[3].all("type")[0]
	assert.Equal(t, "cue", small.attr("size"))
	assert.Equal(t, "no", doc.part(2)[2].all("note")[3].attr("print-object"), "a rest that only keeps time")
}

func articulations(notes []*dom) []string {
	var made []string
	for _, n := range notes {
		name := ""
		if a := n.all("articulations"); len(a) > 0 {
			name = a[0].Children[0].name()
		}
		made = append(made, name)
	}
	return made
}

// What some readers misread or refuse is never written.
func TestNothingThatReadersRefuse(t *testing.T) {
	for name, sheet := range fixtures() {
		raw := string(writtenDoc(t, sheet, Options{}))
		for _, bad := range []string{"non-controlling", "<time number", "width=", "<stem>none", "<dashes", "<senza-misura"} {
			assert.NotContains(t, raw, bad, name)
		}
		for _, d := range regexp.MustCompile(`<(duration|divisions|offset)>([^<]*)<`).FindAllStringSubmatch(raw, -1) {
			assert.Regexp(t, `^-?[0-9]+$`, d[2], "%s %s", name, d[1])
		}
	}
	assert.NotContains(t, string(writtenDoc(t, everything(), Options{})), "multiple-rest")
	assert.Equal(t, []string{"3"}, parse(t, writtenDoc(t, stand(), Options{})).texts("multiple-rest"), "only where one part stands alone")
}

// Bars have the same numbers in all parts and in a part printed alone.
func TestBarNumbersAgree(t *testing.T) {
	numbers := func(bars []*dom) []string {
		var made []string
		for _, b := range bars {
			made = append(made, b.attr("number"))
		}
		return made
	}
	doc := parse(t, writtenDoc(t, everything(), Options{}))
	for i := range doc.all("part") {
		assert.Equal(t, []string{"1", "2", "3", "4", "5"}, numbers(doc.part(i)))
	}
	alone := everything()
	alone.Parts = alone.Parts[4:]
	assert.Equal(t, numbers(doc.part(0)), numbers(parse(t, writtenDoc(t, alone, Options{})).part(0)))
	assert.Equal(t, []string{`<measure-numbering system="only-top">system</measure-numbering>`}, doc.shapes("measure-numbering"))
}

// A document is small trees of text: xmllint reads it without the network.
func TestIsWellFormedForOthers(t *testing.T) {
	tool, err := exec.LookPath("xmllint")
	if err != nil {
		missing(t, "xmllint is not installed")
	}
	for name, sheet := range fixtures() {
		command := exec.Command(tool, "--nonet", "--noout", "-")
		command.Stdin = bytes.NewReader(writtenDoc(t, sheet, Options{}))
		output, err := command.CombinedOutput()
		assert.NoError(t, err, fmt.Sprint(name, string(output)))
	}
}
