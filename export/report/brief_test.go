package report_test

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/report"
	"tieover/score/spec/spectest"
)

func brief(t testing.TB, name string, o report.Options) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, report.Brief(&out, spectest.ReadFiles(t, "../../testdata/sections/"+name+"/section.yaml"), o))
	return out.String()
}

// The opening sentences of two sections, written by hand before there was a
// program to write them; -update does not touch them.
func TestBriefByHand(t *testing.T) {
	for _, name := range []string{"three-sluices", "growing-wake"} {
		want, err := os.ReadFile("testdata/brief/" + name + ".txt")
		require.NoError(t, err)
		assert.Equal(t, string(want), brief(t, name, report.Options{}), name)
	}
}

// What a stranger is asked to read fits his patience, and begins with sentences.
func TestReportsAreShort(t *testing.T) {
	for _, name := range []string{"night-watch", "three-sluices", "two-hands", "short-lock", "towpath", "growing-wake"} {
		got := text(t, spectest.ReadFiles(t, "../../testdata/sections/"+name+"/section.yaml"), report.Options{})
		assert.LessOrEqual(t, strings.Count(got, "\n"), 120, name)
		_, said, _ := strings.Cut(strings.Join(strings.Fields(brief(t, name, report.Options{})), " "), "). ")
		assert.Contains(t, strings.Join(strings.Fields(got), " "), said, name)
	}
}
