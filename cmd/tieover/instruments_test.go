package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What a spec may call an instrument, `instruments` finds.
func TestInstrumentsByOtherNames(t *testing.T) {
	for words, want := range map[string]string{"kit": "drum set", "drum kit": "drum set", "vibes": "vibraphone", "cor anglais": "english horn"} {
		var out, messages strings.Builder
		args := append([]string{"instruments"}, strings.Fields(words)...)
		assert.Equal(t, 0, run(args, streams{strings.NewReader(""), &out, &messages}), words)
		assert.Contains(t, out.String(), "  "+want+" ", words)
		assert.Empty(t, messages.String())
	}
}
