package main

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tieover/score/instrument"
)

// newInstrumentsCmd makes `tieover instruments`: what a spec may name.
func newInstrumentsCmd(s streams) *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "instruments [WORD...]",
		Short: "List the instruments and drum sounds that a spec may name",
		Long: `Lists the instruments that a spec may name, with clef, sounding range and
transposition, and the sounds of percussion. Words choose: an instrument is
listed if its name, family or one of its sounds has each of them.`,
		Example: `  tieover instruments
  tieover instruments saxophone
  tieover instruments hi-hat`,
		RunE: func(_ *cobra.Command, words []string) error {
			chosen := matching(words)
			if len(chosen) == 0 {
				return nothingLike(words)
			}
			if asJSON {
				return writeInstrumentsJSON(s.out, chosen)
			}
			return writeInstruments(s.out, chosen)
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "for programs: as JSON")
	return cmd
}

func nothingLike(words []string) error {
	asked := strings.Join(words, " ")
	if near := instrument.Like(asked); len(near) > 0 {
		return fmt.Errorf("no instrument or sound matches %q; did you mean %s?", asked, strings.Join(near, " or "))
	}
	return fmt.Errorf("no instrument or sound matches %q; without words all are listed", asked)
}

// matching returns the instruments that have every word, or that the words name
// in another usual way ("drum kit").
func matching(words []string) []*instrument.Instrument {
	var chosen []*instrument.Instrument
	named, _ := instrument.Find(strings.Join(words, " "))
	for _, i := range instrument.All() {
		about := i.Name + " " + i.Label + " " + i.Family.String()
		for _, d := range i.Drums {
			about += " " + d.Name + " " + d.Label
		}
		lacks := func(word string) bool { return !strings.Contains(letters(about), letters(word)) }
		if i == named || !slices.ContainsFunc(words, lacks) {
			chosen = append(chosen, i)
		}
	}
	return chosen
}

// letters is a text in lower case without blanks and hyphens, so that hihat
// finds the hi-hat.
func letters(s string) string {
	return strings.NewReplacer(" ", "", "-", "").Replace(strings.ToLower(s))
}

// tableWidth is how many columns the table keeps to.
const tableWidth = 80

// writeInstruments writes a table by family. All of it is ASCII but the names
// that a score prints, which it does not show.
func writeInstruments(w io.Writer, chosen []*instrument.Instrument) error {
	var out strings.Builder
	family := instrument.Family(-1)
	for _, i := range chosen {
		if i.Family != family {
			if family >= 0 {
				out.WriteByte('\n')
			}
			family = i.Family
			fmt.Fprintf(&out, "%s\n", strings.ToUpper(family.String()))
		}
		row := fmt.Sprintf("  %-20s %-18s ", i.Name, staff(i))
		switch {
		case !i.IsUnpitched():
			row += fmt.Sprintf("%-9s %s", span(i), transposes(i))
		case len(i.Drums) > 1:
			row = wrapNames(row, drumNames(i))
		}
		fmt.Fprintln(&out, strings.TrimRight(row, " "))
	}
	_, err := io.WriteString(w, out.String())
	return err
}

func drumNames(i *instrument.Instrument) []string {
	names := make([]string, len(i.Drums))
	for k, d := range i.Drums {
		names[k] = d.Name
	}
	return names
}

// namesColumn is where the names of sounds go on in a further line.
const namesColumn = 42

// wrapNames writes names after a head, joined by commas and continued on further
// lines.
func wrapNames(head string, names []string) string {
	line, text := head, ""
	for k, n := range names {
		if k < len(names)-1 {
			n += ","
		}
		if len(line)+len(n) >= tableWidth {
			text += strings.TrimRight(line, " ") + "\n"
			line = strings.Repeat(" ", namesColumn)
		}
		line += n + " "
	}
	return text + strings.TrimRight(line, " ")
}

// staff says what the instrument is written on.
func staff(i *instrument.Instrument) string {
	switch {
	case i.Staves == 2:
		return "two staves"
	case i.Lines == 1:
		return "one line"
	case i.IsUnpitched():
		return "percussion staff"
	}
	name := map[byte]string{'G': "treble clef", 'F': "bass clef", 'C': "alto clef"}[i.Clef.Sign]
	if i.Clef.Octave == -1 {
		name += " (8)"
	}
	return name
}

// span is the sounding range, "D3-G6".
func span(i *instrument.Instrument) string { return pitchName(i.Low) + "-" + pitchName(i.High) }

func pitchName(key int) string {
	names := []string{"C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"}
	return fmt.Sprintf("%s%d", names[key%12], key/12-1)
}

// transposes says in words where the instrument sounds against what it reads.
func transposes(i *instrument.Instrument) string {
	by := i.Chromatic + 12*i.Octave
	if by == 0 {
		return ""
	}
	intervals := map[int]string{
		2: "a major 2nd", 3: "a minor 3rd", 5: "a 4th", 7: "a 5th", 9: "a major 6th", 12: "an octave",
		14: "a major 9th", 21: "a major 13th", 24: "two octaves",
	}
	if by < 0 {
		return "sounds " + intervals[-by] + " lower"
	}
	return "sounds " + intervals[by] + " higher"
}

// instrumentJSON is one instrument for programs. Pitches are sounding MIDI
// keys, 60 for middle C.
type instrumentJSON struct {
	Name          string     `json:"name"`
	Label         string     `json:"label"`
	Short         string     `json:"short"`
	Family        string     `json:"family"`
	Staves        int        `json:"staves"`
	Lines         int        `json:"lines"`
	Range         []int      `json:"range,omitempty"`
	Transposition []int      `json:"transposition"` // written to sounding: diatonic steps, semitones, octaves
	Sound         string     `json:"sound"`
	Program       int        `json:"program"`
	Sounds        []drumJSON `json:"sounds,omitempty"`
}

type drumJSON struct {
	Name  string `json:"name"`
	Label string `json:"label"`
	Sound string `json:"sound"`
	Key   int    `json:"key"`
}

func writeInstrumentsJSON(w io.Writer, chosen []*instrument.Instrument) error {
	all := struct {
		Version     int              `json:"version"`
		Instruments []instrumentJSON `json:"instruments"`
	}{Version: 1}
	for _, i := range chosen {
		j := instrumentJSON{
			Name: i.Name, Label: i.Label, Short: i.Short, Family: i.Family.String(),
			Staves: i.Staves, Lines: i.Lines, Sound: i.Sound, Program: i.Program,
			Transposition: []int{i.Diatonic, i.Chromatic, i.Octave},
		}
		if !i.IsUnpitched() {
			j.Range = []int{i.Low, i.High}
		}
		for _, d := range i.Drums {
			j.Sounds = append(j.Sounds, drumJSON{d.Name, d.Label, d.Sound, d.Key})
		}
		all.Instruments = append(all.Instruments, j)
	}
	out := json.NewEncoder(w)
	out.SetEscapeHTML(false)
	out.SetIndent("", "  ")
	return out.Encode(all)
}
