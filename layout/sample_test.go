package layout

import (
	"cmp"
	"fmt"
	"slices"
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

// requireSame compares a part's voices with the layers that they are named after;
// of layers that share a voice, each moment of the union stands once.
func requireSame(t *rapid.T, p *score.Piece, player score.Player, part *sheet.Part, text string) {
	if player.Instrument.Staves == 2 && !player.Doubles() {
		requireHands(t, p, player, part, text)
		return
	}
	voices, joined := voicesOf(part)
	heard := make([][]strikeLength, len(voices))
	for s := range sheet.Sounds(part) {
		heard[s.Voice] = append(heard[s.Voice], strikeLength{s.At, s.Length})
	}
	for v, names := range voices {
		var want []strikeLength
		dry := joined[v]
		for i, s := range p.Sections {
			for _, j := range player.Layers[i] {
				if slices.Contains(names, s.Layers[j].Name) {
					want = append(want, layerStrikes(s, j)...)
				}
			}
		}
		for _, name := range names {
			dry = dry || isDry(p, name)
		}
		if len(names) > 1 {
			slices.SortFunc(want, func(a, b strikeLength) int { return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(b.Length, a.Length)) })
			want = slices.CompactFunc(want, func(a, b strikeLength) bool { return a.At == b.At })
		}
		requireStruck(t, want, heard[v], dry, fmt.Sprint(names)+"\n"+text)
	}
}

// voicesOf lists the layers of each voice of a part by what its notes say, one after
// another where a player changes instruments; joined says which voices have several at
// once.
func voicesOf(part *sheet.Part) (voices [][]string, joined []bool) {
	for bar := range part.Bars() {
		for v := range bar.Measure.Voices {
			voice := &bar.Measure.Voices[v]
			if voice.Small {
				continue
			}
			for len(voices) <= v {
				voices, joined = append(voices, []string{bar.Measure.Voices[len(voices)].Layer}), append(joined, false)
			}
			if !slices.Contains(voices[v], voice.Layer) {
				voices[v] = append(voices[v], voice.Layer)
			}
			for _, e := range voice.Events {
				n, ok := e.(*sheet.Note)
				for i := 0; ok && i < len(n.Layers); i++ {
					joined[v] = true
					if !slices.Contains(voices[v], n.Layers[i]) {
						voices[v] = append(voices[v], n.Layers[i])
					}
				}
			}
		}
	}
	return voices, joined
}

// layerStrikes are the attacks that are written as notes or as a rhythm. A sound
// ends at the latest where the way of writing changes.
func layerStrikes(s *score.Section, layer int) []strikeLength {
	var all []strikeLength
	l := s.Layers[layer]
	for at, a := range s.Attacks(layer) {
		length := a.Length
		if l.Tails == score.CutTails && !a.Touch.Has(score.Rolled) {
			length = min(length, s.BarAt(at).End()-at)
		}
		if s.EverWritten(l) {
			as := onPaper(s.WrittenAt(l, s.BarAt(at).Start))
			if as == score.AsSlashes {
				continue
			}
			for bar := s.BarAt(at); bar.End() < at+length; bar = s.BarAt(bar.End()) {
				if onPaper(s.WrittenAt(l, bar.End())) != as {
					length = bar.End() - at
				}
			}
		}
		all = append(all, strikeLength{s.Start + at, length})
	}
	return all
}
