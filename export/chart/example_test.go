package chart_test

import (
	"fmt"
	"os"

	"tieover/export/chart"
	"tieover/score/spec"
)

func ExampleWrite() {
	p, problems := spec.Read([]spec.File{{Name: "gates.yaml", Text: []byte(`
title: Two gates
section: G
meter: 3/4
tempo: 90
layers:
  - {name: Upper, groups: 3+3}
  - {name: Lower, groups: 2+2, strike: short}
`)}})
	if err := problems.Err(); err != nil {
		fmt.Println(err)
		return
	}
	if err := chart.Write(os.Stdout, p, chart.Default()); err != nil {
		fmt.Println(err)
	}
	// Output:
	// TWO GATES, G            3/4   quarter = 90
	// X x struck (X = cycle begins)   2 3 still sounding, counted in its group
	// . silent   #2 second cycle since the last realignment or restart
	// early 2: X is 2 pulses before the barline   under a name: pulses of its cycle
	// together: 2 = both, a, b = one alone   unit: eighth
	//
	// bar        1            2             3
	// count     |1 + 2 + 3 + |1 + 2 + 3 + ||1
	// a Upper    #1           #2
	//    6      |X 2 3 x 2 3 |X 2 3 x 2 3 ||X
	// b Lower    #1      #2       #3 early 4
	//    4      |X . x . X . |x . X . x . ||X
	// together  |2 . b a b . |2 . b a b . ||2
	//    gaps   |2   1 1 2   |2   1 1 2   ||
	//
	// a 3+3: 2 times   b 2+2: 3 times   realignment 1 after 12 eighths = 2 bars, 4.0 s
}
