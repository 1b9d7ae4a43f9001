package lint

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// good is a document that keeps all laws; each case below breaks one.
const good = `<score-partwise version="4.0">
<movement-title>Lock</movement-title>
<part-list>
<part-group number="1" type="start"/>
<score-part id="P1"><part-name>A</part-name><score-instrument id="P1-I1"><instrument-name>a</instrument-name><instrument-sound>drum.conga</instrument-sound></score-instrument><midi-instrument id="P1-I1"/></score-part>
<score-part id="P2"><part-name>B</part-name><score-instrument id="P2-I1"><instrument-name>b</instrument-name><instrument-sound>drum.conga</instrument-sound></score-instrument><midi-instrument id="P2-I1"/></score-part>
<part-group number="1" type="stop"/>
</part-list>
<part id="P1">
<measure number="1"><print/><attributes><divisions>6</divisions><key><fifths>1</fifths></key><time><beats>2+1</beats><beat-type>4</beat-type></time><clef/></attributes>
<direction placement="above"><direction-type><rehearsal>A</rehearsal></direction-type><staff>1</staff></direction>
<direction placement="above"><direction-type><metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>80</per-minute></metronome></direction-type><staff>1</staff><sound tempo="120"/></direction>
<direction placement="above"><direction-type><bracket type="start" number="1" line-end="down" line-type="solid"/></direction-type><staff>1</staff></direction>
<note><pitch><step>F</step><alter>1</alter><octave>4</octave></pitch><duration>3</duration><voice>1</voice><type>eighth</type><beam number="1">begin</beam></note>
<note><pitch><step>B</step><alter>-1</alter><octave>4</octave></pitch><duration>3</duration><voice>1</voice><type>eighth</type><accidental>flat</accidental><beam number="1">end</beam></note>
<note><pitch><step>B</step><octave>4</octave></pitch><duration>4</duration><voice>1</voice><type>quarter</type><accidental>natural</accidental><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification><notations><tuplet type="start" number="1" bracket="yes"/></notations></note>
<note><pitch><step>C</step><octave>5</octave></pitch><duration>2</duration><voice>1</voice><type>eighth</type><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification><notations><tuplet type="stop" number="1"/></notations></note>
<note><pitch><step>D</step><octave>5</octave></pitch><duration>6</duration><tie type="start"/><voice>1</voice><type>quarter</type><notations><tied type="start"/></notations></note>
<barline location="right"><bar-style>light-light</bar-style></barline></measure>
<measure number="2">
<note><pitch><step>D</step><octave>5</octave></pitch><duration>9</duration><tie type="stop"/><voice>1</voice><type>quarter</type><dot/><notations><tied type="stop"/></notations></note>
<direction placement="above"><direction-type><bracket type="stop" number="1" line-end="down" line-type="solid"/></direction-type><staff>1</staff></direction>
<note><rest/><duration>9</duration><voice>1</voice><type>quarter</type><dot/></note></measure>
</part>
<part id="P2">
<measure number="1"><attributes><divisions>6</divisions><key><fifths>0</fifths></key><time><beats>2+1</beats><beat-type>4</beat-type></time><clef/></attributes>
<note><unpitched><display-step>E</display-step><display-octave>4</display-octave></unpitched><duration>18</duration><instrument id="P2-I1"/><voice>1</voice><type>half</type><dot/></note>
<barline location="right"><bar-style>light-light</bar-style></barline></measure>
<measure number="2"><note><rest measure="yes"/><duration>18</duration><voice>1</voice></note></measure>
</part>
</score-partwise>`

func TestAGoodDocumentHasNoFindings(t *testing.T) {
	findings, err := Check(strings.NewReader(good))
	require.NoError(t, err)
	assert.Empty(t, findings)
}

func TestEveryLawIsHeld(t *testing.T) {
	for _, c := range []struct{ from, to, finding string }{
		{`version="4.0"`, `version="3.1"`, `not score-partwise 4.0`},
		{`<movement-title>Lock</movement-title>`, ``, "no title"},
		{`<part-group number="1" type="stop"/>`, ``, "part group 1 never ends"},
		{`<part id="P2">`, `<part id="P3">`, "parts [P1 P2] are listed, [P1 P3] written"},
		{`<score-part id="P2">`, `<score-part id="P1">`, `"P1" is empty`},
		{`<part-name>A</part-name>`, `<part-name/>`, "P1 has no name"},
		{`<midi-instrument id="P2-I1"/>`, `<midi-instrument id="P1-I1"/>`, "is none of its instruments"},
		{`<instrument-sound>drum.conga</instrument-sound>`, ``, "has no sound"},
		{`<measure number="2"><note>`, `<measure number="3"><note>`, "is framed as"},
		{`<measure number="2"><note><rest measure="yes"/><duration>18</duration><voice>1</voice></note></measure>`, ``, "1 bars, but 2 in the first part"},
		{`<measure number="2">` + "\n", `<measure number="1">` + "\n", "used twice"},
		{`<fifths>0</fifths></key><time>`, `<fifths>0</fifths></key><key/><time number="1">`, "signatures of their own"},
		{`<key><fifths>1</fifths></key>`, ``, "first bar has no key"},
		{`<divisions>6</divisions><key><fifths>0`, `<divisions>7</divisions><key><fifths>0`, "fills 18 of 21"},
		{`<rehearsal>A</rehearsal>`, `<rehearsal>A</rehearsal><words>x</words>`, "one sign"},
		{`<rehearsal>A</rehearsal></direction-type>`, `<words>rit.</words></direction-type><direction-type><dashes type="stop" number="1"/></direction-type>`, "dashes 1: stop out of turn"},
		{`<rehearsal>A</rehearsal></direction-type>`, `<words>rit.</words></direction-type><direction-type><wedge type="stop" number="1"/></direction-type>`, "one sign"},
		{`<rehearsal>A</rehearsal></direction-type><staff>1</staff>`, `<words>rit.</words></direction-type><staff>1</staff><sound tempo="90"/>`, "not at a tempo mark"},
		{`<direction placement="above"><direction-type><rehearsal>`, `<direction><direction-type><rehearsal>`, "a placement"},
		{`tempo="120"`, `tempo="80"`, "the mark says 120"},
		{`<note><rest/><duration>9</duration><voice>1</voice><type>quarter</type><dot/></note>`, ``, "fills 9 of 18"},
		{`<duration>9</duration><voice>1</voice><type>quarter</type><dot/></note></measure>`, `<duration>12</duration><voice>1</voice><type>half</type></note></measure>`, "overfull"},
		{`<type>quarter</type><dot/></note>`, `<type>quarter</type></note>`, "lasts 9, not 24/4"},
		{`<rest measure="yes"/><duration>18`, `<rest measure="yes"/><duration>12`, "whole-bar rest lasts 12 of 18"},
		{`<beam number="1">end</beam>`, ``, "without a beam under an open one"},
		{`<beam number="1">begin</beam>`, ``, `"end" out of turn`},
		{`<beam number="1">end</beam>`, `<beam number="1">end</beam><beam number="2">backward hook</beam>`, "2 beams on a eighth"},
		{`<beam number="1">end</beam>`, `<beam number="1">continue</beam>`, "without a beam under"},
		{`<tuplet type="stop" number="1"/>`, ``, "in a tuplet of"},
		{`<tuplet type="start" number="1" bracket="yes"/>`, `<tuplet type="start" number="1"/>`, "to the reader"},
		{`<tuplet type="start" number="1" bracket="yes"/>`, ``, `ratio "3:2" in a tuplet of ""`},
		{`<tied type="start"/>`, ``, "tie and tied differ"},
		{`<step>D</step><octave>5</octave></pitch><duration>9`, `<step>E</step><octave>5</octave></pitch><duration>9`, "a tie ends where none leads"},
		{`<tie type="stop"/><voice>1</voice><type>quarter</type><dot/><notations><tied type="stop"/>`, `<voice>1</voice><type>quarter</type><dot/><notations>`, "leads to a note that is struck"},
		{`<notations><tied type="stop"/>`, `<notations><tied type="stop"/><articulations><accent/></articulations>`, "on a note that is held"},
		{`<accidental>natural</accidental>`, ``, "reads as altered by -1"},
		{`<accidental>flat</accidental>`, ``, "reads as altered by 0"},
		{`<accidental>flat</accidental>`, `<accidental>sharp</accidental>`, `prints "sharp"`},
		{`<alter>1</alter>`, ``, "reads as altered by 1"},
		{`<instrument id="P2-I1"/>`, ``, "without instrument or place"},
		{`<instrument id="P2-I1"/>`, `<instrument id="P1-I1"/>`, "is none of the part's"},
		{`<bracket type="stop" number="1"`, `<bracket type="stop" number="2"`, "bracket 2: stop out of turn"},
		{`line-end="down" line-type="solid"/></direction-type><staff>1</staff></direction>` + "\n<note><pitch>", `line-end="down"/></direction-type><staff>1</staff></direction>` + "\n<note><pitch>", "solid line"},
		{`<bar-style>light-light</bar-style></barline></measure>` + "\n<measure number=\"2\">\n", `<bar-style>light-heavy</bar-style></barline></measure>` + "\n<measure number=\"2\">\n", "is framed as"},
		{`<print/>`, `<print new-system="yes"/>`, "is framed as"},
		{`<print/>`, `<attributes><measure-style><multiple-rest>2</multiple-rest></measure-style></attributes>`, "multi-bar rest in a score"},
	} {
		require.Contains(t, good, c.from)
		findings, err := Check(strings.NewReader(strings.Replace(good, c.from, c.to, 1)))
		require.NoError(t, err)
		assert.Contains(t, strings.Join(findings, "\n"), c.finding, "%s for %s", c.to, c.from)
	}
}

// A note in tablature sounds what its string does at its fret.
func TestTablature(t *testing.T) {
	strings_ := `<clef/><staff-details number="2"><staff-lines>2</staff-lines><staff-tuning line="1"><tuning-step>A</tuning-step><tuning-octave>3</tuning-octave></staff-tuning>` +
		`<staff-tuning line="2"><tuning-step>E</tuning-step><tuning-alter>-1</tuning-alter><tuning-octave>4</tuning-octave></staff-tuning></staff-details></attributes>
<note><pitch><step>F</step><octave>4</octave></pitch><duration>18</duration><voice>5</voice><type>half</type><dot/><stem>none</stem><staff>2</staff><notations><technical><string>1</string><fret>2</fret></technical></notations></note>
<backup><duration>18</duration></backup>
<note><unpitched>`
	doc := strings.Replace(good, "<clef/></attributes>\n<note><unpitched>", strings_, 1)
	for _, c := range []struct{ from, to, finding string }{
		{"", "", ""},
		{`<fret>2</fret>`, `<fret>3</fret>`, "F/4 is not at fret 3 of string 1"},
		{`<string>1</string>`, `<string>2</string>`, "F/4 is not at fret 2 of string 2"},
		{`<string>1</string>`, `<string>3</string>`, "F/4 has no place on the strings"},
		{`<stem>none</stem>`, ``, "has a stem"},
		{`<staff-lines>2<`, `<staff-lines>6<`, "6 lines for 2 strings"},
	} {
		findings, err := Check(strings.NewReader(strings.Replace(doc, c.from, c.to, 1)))
		require.NoError(t, err)
		if c.finding == "" {
			assert.Empty(t, findings)
		}
		assert.Contains(t, strings.Join(findings, "\n"), c.finding)
	}
}

// A beam over the barline is a fault unless it is allowed, and then must end.
func TestBeamsOverBarlines(t *testing.T) {
	over := strings.NewReplacer(
		`<duration>6</duration><tie type="start"/><voice>1</voice><type>quarter</type><notations>`, `<duration>3</duration><tie type="start"/><voice>1</voice><type>eighth</type><beam number="1">begin</beam><notations>`,
		`<beats>2+1</beats><beat-type>4`, `<beats>5</beats><beat-type>8`,
		`<duration>9</duration><tie type="stop"/><voice>1</voice><type>quarter</type><dot/><notations>`, `<duration>3</duration><tie type="stop"/><voice>1</voice><type>eighth</type><beam number="1">end</beam><notations>`,
		`<note><rest/><duration>9</duration><voice>1</voice><type>quarter</type><dot/></note>`, `<note><rest/><duration>12</duration><voice>1</voice><type>half</type></note>`,
		`<duration>18</duration><instrument id="P2-I1"/><voice>1</voice><type>half</type><dot/></note>`, `<duration>12</duration><instrument id="P2-I1"/><voice>1</voice><type>half</type></note><note><rest/><duration>3</duration><voice>1</voice><type>eighth</type></note>`,
		`<rest measure="yes"/><duration>18`, `<rest measure="yes"/><duration>15`,
	).Replace(good)
	findings, err := Check(strings.NewReader(over), BeamsOverBarlines)
	require.NoError(t, err)
	assert.Empty(t, findings)
	findings, err = Check(strings.NewReader(over))
	require.NoError(t, err)
	assert.Contains(t, strings.Join(findings, "\n"), "open at the barline")
	findings, err = Check(strings.NewReader(strings.Replace(over, `<beam number="1">end</beam><notations>`, `<beam number="1">continue</beam><notations>`, 1)), BeamsOverBarlines)
	require.NoError(t, err)
	assert.Contains(t, strings.Join(findings, "\n"), "beam 1 is open")
}

func TestWhatIsNoXMLIsAnError(t *testing.T) {
	_, err := Check(strings.NewReader("<score-partwise>"))
	assert.Error(t, err)
}
