package musicxml

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/musicxml/lint"
)

func TestEverySheetIsClean(t *testing.T) {
	for name, sheet := range fixtures() {
		findings, err := lint.Check(bytes.NewReader(writtenDoc(t, sheet, Options{})))
		require.NoError(t, err)
		assert.Empty(t, findings, name)
	}
}

// shared returns the folder with the schema of the standard, which is no part
// of the project: TIEOVER_SHARED, or shared beside the module.
func shared(t *testing.T) string {
	t.Helper()
	dir := os.Getenv("TIEOVER_SHARED")
	if dir == "" {
		dir = filepath.Join("..", "..", "..", "shared")
	}
	if _, err := os.Stat(filepath.Join(dir, "musicxml-4.0", "musicxml.xsd")); err != nil {
		missing(t, "the MusicXML schema is not in "+dir+" (set TIEOVER_SHARED)")
	}
	return dir
}

// missing skips a test that needs what is not there; in CI it fails.
func missing(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatal(what)
	}
	t.Skip(what)
}

// validate holds documents against the schema and returns what is wrong.
func validate(t *testing.T, dir string, documents ...[]byte) (findings string, valid bool) {
	t.Helper()
	tool, err := exec.LookPath("xmllint")
	if err != nil {
		missing(t, "xmllint is not installed")
	}
	arguments := []string{"--nonet", "--noout", "--schema", filepath.Join(dir, "musicxml-4.0", "musicxml.xsd")}
	files := t.TempDir()
	for i, document := range documents {
		path := filepath.Join(files, fmt.Sprintf("%d.musicxml", i))
		require.NoError(t, os.WriteFile(path, document, 0o600))
		arguments = append(arguments, path)
	}
	command := exec.Command(tool, arguments...)
	command.Env = append(os.Environ(), "XML_CATALOG_FILES="+filepath.Join(dir, "musicxml-4.0", "catalog.xml"))
	output, err := command.CombinedOutput()
	return string(output), err == nil
}

func TestEverySheetIsValid(t *testing.T) {
	dir := shared(t)
	for name, sheet := range fixtures() {
		for _, o := range []Options{{}, {Page: Letter, Staff: 550, Margin: 2000, Date: "2031-05-30"}} {
			findings, valid := validate(t, dir, writtenDoc(t, sheet, o))
			assert.True(t, valid, "%s %+v: %s", name, o, findings)
		}
	}
}

// The validation must see the slips that a writer makes: each of these turns
// two neighbours of a valid document round, or leaves one out.
func TestTheSchemaSeesWrongOrder(t *testing.T) {
	dir := shared(t)
	document := writtenDoc(t, everything(), Options{})
	for _, c := range []struct{ parent, one, other string }{
		{"note", "voice", "type"}, {"note", "duration", "tie"}, {"note", "tie", "voice"}, {"note", "dot", "accidental"},
		{"note", "time-modification", "beam"}, {"note", "stem", "notehead"}, {"note", "type", "stem"},
		{"note", "staff", "voice"}, {"note", "beam", "notations"}, {"note", "notations", "type"}, {"note", "type", "lyric"},
		{"note", "chord", "pitch"}, {"note", "instrument", "voice"}, {"pitch", "step", "octave"},
		{"attributes", "key", "time"}, {"attributes", "time", "clef"}, {"attributes", "staves", "clef"}, {"attributes", "divisions", "key"},
		{"attributes", "clef", "transpose"}, {"attributes", "clef", "staff-details"}, {"transpose", "diatonic", "chromatic"},
		{"barline", "bar-style", "repeat"}, {"direction", "direction-type", "staff"}, {"direction", "offset", "staff"}, {"direction", "staff", "sound"},
		{"metronome", "beat-unit", "per-minute"}, {"metronome", "beat-unit-dot", "per-minute"},
		{"score-part", "part-name", "part-abbreviation"}, {"score-part", "score-instrument", "midi-instrument"},
		{"midi-instrument", "midi-channel", "midi-program"}, {"midi-instrument", "midi-program", "midi-unpitched"},
		{"score-partwise", "movement-title", "identification"}, {"identification", "creator", "rights"}, {"identification", "rights", "encoding"},
		{"score-partwise", "defaults", "credit"}, {"page-layout", "page-height", "page-width"}, {"scaling", "millimeters", "tenths"},
		{"harmony", "root", "kind"}, {"harmony", "kind", "bass"}, {"unpitched", "display-step", "display-octave"},
		{"time-modification", "actual-notes", "normal-notes"}, {"clef", "sign", "line"}, {"lyric", "syllabic", "text"},
	} {
		turned, found := turn(t, document, c.parent, c.one, c.other)
		require.True(t, found, "%s with %s and %s is nowhere in the document", c.parent, c.one, c.other)
		_, valid := validate(t, dir, turned)
		assert.False(t, valid, "%s: %s and %s turned round", c.parent, c.one, c.other)
	}
}

// turn exchanges two children of the first element that has both.
func turn(t *testing.T, document []byte, parent, one, other string) (turned []byte, found bool) {
	root := parse(t, document)
	for _, p := range append([]*dom{root}, root.all(parent)...) {
		if p.name() != parent {
			continue
		}
		a, b := -1, -1
		for i, c := range p.Children {
			if c.name() == one && a < 0 {
				a = i
			}
			if c.name() == other {
				b = i
			}
		}
		if a >= 0 && b >= 0 {
			p.Children[a], p.Children[b] = p.Children[b], p.Children[a]
			return []byte(root.xml()), true
		}
	}
	return nil, false
}

func TestTurningBackIsValid(t *testing.T) {
	dir := shared(t)
	findings, valid := validate(t, dir, []byte(parse(t, writtenDoc(t, everything(), Options{})).xml()))
	require.True(t, valid, findings)
}

func ExampleWrite() {
	var b bytes.Buffer
	if err := Write(&b, stand(), Options{}); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(bytes.Contains(b.Bytes(), []byte("<multiple-rest>3</multiple-rest>")))
	// Output: true
}
