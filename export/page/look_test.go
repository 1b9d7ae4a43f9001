package page

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// palette reads the color variables of one declaration block.
func palette(t *testing.T, block string) map[string]string {
	t.Helper()
	colors := map[string]string{}
	for _, m := range regexp.MustCompile(`--(\w+): (#[0-9a-f]{6});`).FindAllStringSubmatch(block, -1) {
		colors[m[1]] = m[2]
	}
	require.Len(t, colors, 7)
	return colors
}

// palettes are the page's in light, dark and print, and the lone figure's. With
// forced colors the page has none of its own.
func palettes(t *testing.T) map[string]map[string]string {
	t.Helper()
	blocks := regexp.MustCompile(`(?s):root \{(.*?)\}`).FindAllStringSubmatch(asset("page.css"), -1)
	require.Len(t, blocks, 4)
	require.NotContains(t, blocks[2][1], "#")
	figure := regexp.MustCompile(`(?s)^svg \{(.*?)\}`).FindStringSubmatch(asset("figure.css"))
	return map[string]map[string]string{
		"light": palette(t, blocks[0][1]), "dark": palette(t, blocks[1][1]), "print": palette(t, blocks[3][1]),
		"figure": palette(t, figure[1]),
	}
}

// luminance is the relative luminance of WCAG 2.2, from sRGB as IEC 61966-2-1
// defines it.
func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	n, err := strconv.ParseUint(hex[1:], 16, 32)
	require.NoError(t, err)
	linear := func(v uint64) float64 {
		c := float64(v&255) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(n>>16) + 0.7152*linear(n>>8) + 0.0722*linear(n)
}

// contrast is the contrast ratio of WCAG 2.2.
func contrast(t *testing.T, a, b string) float64 {
	x, y := luminance(t, a), luminance(t, b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// lightness is L* of CIE 1976, against white at luminance 1.
func lightness(t *testing.T, hex string) float64 {
	y := luminance(t, hex)
	if y <= 216.0/24389 {
		return y * 24389 / 27
	}
	return 116*math.Cbrt(y) - 16
}

// The two formulas, held to values anybody can check: black on white is 21 to 1
// (WCAG), and sRGB middle gray #777777 has L* 50 within 1.
func TestFormulas(t *testing.T) {
	assert.InDelta(t, 21, contrast(t, "#000000", "#ffffff"), 1e-9)
	assert.InDelta(t, 100, lightness(t, "#ffffff"), 1e-9)
	assert.InDelta(t, 50, lightness(t, "#777777"), 1)
}

// WCAG 2.2: text 4.5 to 1 (1.4.3), shapes that carry meaning 3 to 1 (1.4.11).
func TestContrast(t *testing.T) {
	for name, p := range palettes(t) {
		for _, text := range []string{"text", "soft"} {
			assert.GreaterOrEqual(t, contrast(t, p[text], p["paper"]), 4.5, "%s: %s", name, text)
		}
		for _, shape := range []string{"line", "a", "b", "c"} {
			assert.GreaterOrEqual(t, contrast(t, p[shape], p["paper"]), 3.0, "%s: %s", name, shape)
		}
	}
}

// Each two of 64 layers differ by 20 in lightness, which no color blindness
// takes away, or by the pattern of their beams.
func TestLayersDiffer(t *testing.T) {
	inkOf := []string{"a", "b", "c"}
	require.Len(t, inkOf, inks)
	for name, p := range palettes(t) {
		for i := range 64 {
			for j := range i {
				a, b := lookOf(i), lookOf(j)
				apart := math.Abs(lightness(t, p[inkOf[a.ink]]) - lightness(t, p[inkOf[b.ink]]))
				assert.True(t, apart >= 20 || a.dash != b.dash, "%s: layers %d and %d look alike", name, i, j)
			}
		}
	}
	for i, ink := range inkOf {
		assert.Contains(t, asset("figure.css"), fmt.Sprintf(".ink%d { --ink: var(--%s); }", i, ink))
	}
}
