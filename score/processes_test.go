package score_test

import (
	"fmt"
	"strings"
	"testing"
)

// Each process that a spec can say, and score/find can name, is worked out by
// the naive score too: by itself, with another after it, and started over with
// the realignments.
func TestProcessesAgainstTheNaiveScore(t *testing.T) {
	all := []string{
		"{grow: {group: 1, by: 1, from: 2, stop-when-empty: yes}}", "{grow: {group: 2, by: 1, from: none, after: 3, stop-when-empty: yes}}",
		"{grow: {group: 1, by: -1, from: 3, stop-when-empty: yes, after: 2}}",
		"{rotate: {by: 1}}", "{rotate: {by: -1, after: 2}}", "{shift: {by: 2}}", "{shift: {by: -1, after: 2}}",
		"{append: {size: 2, after: 3}}", "{retrograde: {on: even}}", "{retrograde: {on: every 3rd}}",
	}
	for i, one := range all {
		for _, two := range append([]string{""}, all[:i]...) {
			for _, until := range []string{"", ", until: realignment}"} {
				processes := one
				if two != "" {
					processes += ", " + two
				}
				if until != "" {
					processes = strings.ReplaceAll(processes, "}}", "}"+until)
				}
				text := fmt.Sprintf("title: Lock\nmeter: 4/4\npulse: 1/8\nlength: 20 bars\nrealign: [Gate, Barge]\nlayers:\n"+
					"  - {name: Winch, instrument: marimba, groups: 3+2+2, process: [%s], pitches: C4 D4 E4}\n  - {name: Gate, groups: 3+3}\n  - {name: Barge, groups: 5+5+4}\n", processes)
				compare(t, read(t, text).Sections[0], text)
			}
		}
	}
}
