package score

import (
	"testing"

	"tieover/score/process"
)

// One cycle of each kind: repeated content, content that moves on, and cycles
// that ring into the next.
func BenchmarkCycles(b *testing.B) {
	plain := layer("plain", groups(3, 2, 2, 3))
	never := layer("never", groups(3, 2, 2, 3))
	never.Series = [][]Chord{{{{Step: 'C', Octave: 4}}, {{Step: 'D', Octave: 4}}, {{Step: 'E', Octave: 4}}}}
	never.Restart = RestartNever
	shifted := layer("shifted", groups(3, 2, 2, 3))
	shifted.Process = []Process{{Rule: process.Rule{Kind: process.Shift, By: -1, After: 1}}}
	s := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 100_000}, plain, never, shifted)
	p := &Piece{Grid: 48, Sections: []*Section{s}}
	if problems := p.Settle(); len(problems) > 0 {
		b.Fatal(problems.Err())
	}
	for i, l := range s.Layers {
		b.Run(l.Name, func(b *testing.B) {
			b.ReportAllocs()
			for n := 0; n < b.N; {
				for range s.Cycles(i) {
					if n++; n >= b.N {
						break
					}
				}
			}
		})
	}
}
