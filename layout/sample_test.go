package layout

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/sample"
	"tieover/score/spec"
)

// The same law for pieces of several sections that use every key of the spec:
// each voice sounds what its layer has in each section, in the score and in
// the part printed alone.
func TestSampledPieces(t *testing.T) {
	written, unwritten := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		var files []spec.File
		all := ""
		for _, text := range sample.YAMLs(t) {
			files = append(files, spec.File{Name: "sample.yaml", Text: []byte(text)})
			all += text + "---\n"
		}
		p, problems := spec.Read(files)
		if len(problems) > 0 {
			t.Skip(problems.Err())
		}
		o := randomOptions(t)
		laid, problems := Lay(p, o)
		if len(problems) > 0 {
			unwritten++
			return
		}
		written++
		for i, player := range p.Players() {
			part := &laid.Parts[i]
			require.NoError(t, sheet.Check(laid, part), all)
			requireSame(t, p, player, part, all)
			single, problems := LayPart(p, o, i)
			require.NoError(t, problems.Err())
			require.NoError(t, sheet.Check(single, &single.Parts[0]), all)
			requireSame(t, p, player, &single.Parts[0], all)
		}
	})
	t.Logf("%d pieces written, %d not", written, unwritten)
	require.Less(t, unwritten*20, written+40, "more than one piece in twenty could not be written")
}

// requireSame compares a part's voices with the layers that they are named after.
func requireSame(t *rapid.T, p *score.Piece, player score.Player, part *sheet.Part, text string) {
	var names []string // by voice
	for b := range part.Bars() {
		for _, v := range b.Measure.Voices {
			names = append(names, v.Layer)
		}
		break
	}
	heard := map[string][]strikeLength{}
	for s := range sheet.Sounds(part) {
		heard[names[s.Voice]] = append(heard[names[s.Voice]], strikeLength{s.At, s.Length})
	}
	require.Empty(t, heard[""], text)
	for _, name := range part.Layers {
		var want []strikeLength
		for i, s := range p.Sections {
			for _, j := range player.Layers[i] {
				if s.Layers[j].Name == name {
					want = append(want, layerStrikes(s, j)...)
				}
			}
		}
		requireStruck(t, want, heard[name], isDry(p, name), name+"\n"+text)
	}
}

func layerStrikes(s *score.Section, layer int) []strikeLength {
	var all []strikeLength
	for at, a := range s.Attacks(layer) {
		length := a.Length
		if s.Layers[layer].Tails == score.CutTails {
			length = min(length, s.BarAt(at).End()-at)
		}
		all = append(all, strikeLength{s.Start + at, length})
	}
	return all
}
