package chart_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/export/chart"
	"tieover/export/chart/terminal"
	"tieover/score"
	"tieover/score/sample"
	"tieover/score/spec"
)

// Whatever a spec may say, its chart can be read: every attack, every label and
// the composite, at any width.
func TestChartsOfSampledSections(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		text := sample.YAML(r)
		p, problems := spec.Read([]spec.File{{Name: "s", Text: []byte(text)}})
		if len(problems) > 0 || p.Sections[0].BarCount() > 300 {
			r.Skip("no section to set")
		}
		for _, l := range p.Sections[0].Layers {
			if slices.ContainsFunc(p.Sections[0].WrittenAs(l), func(w score.WrittenFrom) bool { return w.Written == score.AsSlashes }) {
				r.Skip("slashes hide attacks")
			}
		}
		opt := chart.Default()
		opt.Width = rapid.SampledFrom([]int{40, 80, 200}).Draw(r, "width")
		opt.ASCII = rapid.Bool().Draw(r, "ascii")
		r.Log(text)
		var out strings.Builder
		require.NoError(r, chart.Write(&out, p, opt))
		got := readChart(out.String())
		onsets, marks := model(p.Sections[0])
		labels := map[string]heard{}
		for text, at := range marks {
			labels[terminal.Spell(text, opt.ASCII)] = at
		}
		if got.Loose {
			for i := range onsets {
				require.Equal(r, perBar(onsets[i]), perBar(got.Onsets[i]), "%s\n%s", text, out.String())
			}
			return
		}
		require.Equal(r, onsets, got.Onsets, "%s\n%s", text, out.String())
		require.Equal(r, labels, got.Labels, "%s\n%s", text, out.String())

		opt.Pitches, opt.Compact = true, rapid.Bool().Draw(r, "compact")
		require.NoError(r, chart.Write(&strings.Builder{}, p, opt))
		opt.Drift, opt.Width = true, chart.Widest
		require.NoError(r, chart.Write(&strings.Builder{}, p, opt))
	})
}
