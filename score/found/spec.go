package found

import (
	"errors"
	"fmt"
	"strings"

	"tieover/score/spec"
)

// ErrTooManyLayers is in the error of Spec for more lines than a spec holds.
var ErrTooManyLayers = fmt.Errorf("a spec holds %d", spec.MaxLayers)

// Spec writes a section spec that sounds exactly the lines, below remarks on what was
// found. notes name each instrument that the input does not. The text is read once more, so
// that it is known to be a spec; the error says why there can be none.
func (m Music) Spec() (text string, notes []string, err error) {
	var b strings.Builder
	for _, line := range m.Lines {
		remark(&b, "%s: %v", oneLine(line.Name), line.Ranked[0])
		for _, text := range line.Exceptions(line.Ranked[0]) {
			remark(&b, "  %s", text)
		}
	}
	layers, notes := Layers(m.Lines)
	if err := m.fits(layers); err != nil {
		return "", nil, err
	}
	for _, note := range notes {
		remark(&b, "%s", oneLine(note))
	}
	for _, text := range Meetings(m.Lines) {
		remark(&b, "%s", text)
	}
	if m.Plan.Swing != "" {
		remark(&b, "swung %s; this spec sounds straight", m.Plan.Swing)
	}
	body, err := m.Plan.Spec(layers)
	if err != nil {
		return "", notes, err
	}
	b.WriteString(body)
	if p, problems := spec.Read([]spec.File{{Name: "spec", Text: []byte(b.String())}}); p == nil {
		return "", notes, errors.New("this cannot be said in a spec: " + problems[0].Text)
	}
	return b.String(), notes, nil
}

func remark(b *strings.Builder, format string, args ...any) {
	fmt.Fprintf(b, "# "+format+"\n", args...)
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// mostTones is how many notes a spec has in a chord.
const mostTones = 16

// fits returns an error for what a spec has no room for: too many layers, or a chord of too
// many notes.
func (m Music) fits(layers []Layer) error {
	if n := len(layers); n > spec.MaxLayers {
		return fmt.Errorf("%d parts and voices; %w", n, ErrTooManyLayers)
	}
	for i, line := range m.Lines {
		for _, h := range line.List.Hits {
			if len(line.List.Chords[h.Chord]) <= mostTones || layers[i].Instrument == "" || layers[i].Bare {
				continue
			}
			if n := len(layers[i].Tones(h.Chord)); n > mostTones {
				return fmt.Errorf("%s, %s: a chord of %d notes; a spec holds %d, so divide it among several parts or voices", line.Name, line.Where(h.At), n, mostTones)
			}
		}
	}
	return nil
}
