package main

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestMisuse(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"biuld"}, "tieover: there is no command \"biuld\"; did you mean build? tieover --help lists them\n"},
		{[]string{"zither"}, "tieover: there is no command \"zither\"; tieover --help lists them\n"},
		{[]string{"chart"}, "tieover: chart: the wrong number of arguments, 0; write: tieover chart SPEC...\n"},
		{[]string{"fit", "3+2", "3"}, "tieover: fit: the wrong number of arguments, 2; write: tieover fit GROUPS\n"},
		{[]string{"chart", "x", "--width", "wide"}, "tieover: invalid argument \"wide\" for \"--width\" flag: it takes a whole number; tieover chart --help lists the flags\n"},
		{[]string{"find", "3", "--tempo", "fast"}, "tieover: invalid argument \"fast\" for \"--tempo\" flag: it takes a number; tieover find --help lists the flags\n"},
		{[]string{"find", "3", "--tempo", "NaN"}, "tieover: --tempo NaN: write quarters a minute, up to 2000\n"},
		{[]string{"find", "3", "--tolerance", "30xms"}, "tieover: --tolerance 30xms: write milliseconds from 1ms to 1000ms\n"},
		{[]string{"find", "3", "--tolerance", "NaNms"}, "tieover: --tolerance NaNms: write milliseconds from 1ms to 1000ms\n"},
		{[]string{"worksheet", "x", "-o", "y", "--width", "39"}, "tieover: --width 39: a worksheet has 40 to 10000 columns\n"},
		{[]string{"build", "x", "-o", "y", "--width", "5"}, "tieover: --width 5: a chart has 24 to 10000 columns\n"},
		{[]string{"realign", "3", "4", "--meter", ""}, "tieover: invalid argument \"\" for \"--meter\" flag: write words joined by commas, on one line; tieover realign --help lists the flags\n"},
		{[]string{"chart", "x", "--bogus"}, "tieover: unknown flag: --bogus; tieover chart --help lists the flags\n"},
		{[]string{"build", "x", "-o", "y", "--spelling", "phonetic"}, "tieover: invalid argument \"phonetic\" for \"--spelling\" flag: \"phonetic\" is none of auto, group, meter; tieover build --help lists the flags\n"},
	} {
		var out, messages bytes.Buffer
		assert.Equal(t, wrongUse, run(c.args, streams{nil, &out, &messages}))
		assert.Equal(t, c.want, messages.String())
		assert.Empty(t, out.String())
	}
}
