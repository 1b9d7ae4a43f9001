package layout

import (
	"fmt"
	"strings"
	"testing"

	"tieover/score/processor"
)

// round writes a spec of eight layers with cycles of 5 to 12 eighths.
func round(bars int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "title: Round\nmeter: 4/4\nlength: %d bars\nlayers:\n", bars)
	for i, g := range []string{"3+2", "3+3", "3+2+2", "3+3+2", "3+2+2+2", "3+3+2+2", "3+2+2+2+2", "3+3+2+2+2"} {
		strike := "hold"
		if i%2 == 1 {
			strike = "all"
		}
		fmt.Fprintf(&b, "  - {name: L%d, groups: %s, strike: %s}\n", i, g, strike)
	}
	return b.String()
}

// BenchmarkRepeatedBar walks bars that have all been made before: the cost of
// one, from cycles to marks.
func BenchmarkRepeatedBar(b *testing.B) {
	sheet := laid(b, Options{}, round(20000))
	bars := 0
	b.ResetTimer()
	before := processor.Time()
	for bars < b.N {
		for range sheet.Parts[6].Bars() {
			if bars++; bars >= b.N {
				break
			}
		}
	}
	b.ReportMetric(float64(processor.Time()-before)/float64(b.N), "cpu-ns/op")
}

// BenchmarkLay lays eight layers over 5,000 bars.
func BenchmarkLay(b *testing.B) {
	p := read(b, round(5000))
	for b.Loop() {
		if _, problems := Lay(p, Options{}); len(problems) > 0 {
			b.Fatal(problems.Err())
		}
	}
}
