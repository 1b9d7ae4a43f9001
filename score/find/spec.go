package find

import (
	"strings"

	"tieover/score/heard"
)

func chordText(tones []heard.Tone) string {
	names := make([]string, len(tones))
	for i, t := range tones {
		names[i] = t.String()
	}
	return strings.Join(names, "+")
}
