package page

import (
	"fmt"
	"html"
	"regexp"
	"strings"
)

// standalone puts drawings under one another into one that stands alone. Programs for
// slides and print know less of style sheets than browsers do: it has no
// variables, no order of painting and nothing hidden.
func standalone(title string, parts []string) string {
	const gap, margin = 14, 12
	width, height := 0.0, 0.0
	var body strings.Builder
	var sentences []string
	for _, part := range parts {
		var w, h float64
		box := part[strings.Index(part, "viewBox=")+len(`viewBox="0 0 `):]
		_, _ = fmt.Sscanf(box, "%f %f", &w, &h) // our own drawing
		sentences = append(sentences, html.UnescapeString(spoken.FindStringSubmatch(part)[1]))
		fmt.Fprintf(&body, `<g transform="translate(0 %g)">`+"\n", height)
		body.WriteString(strings.Replace(haloed(withoutCursor(part)), "<svg ", fmt.Sprintf(`<svg width="%g" height="%g" `, w, h), 1))
		body.WriteString("</g>\n")
		width = max(width, w)
		height += h + gap
	}
	width, height = width+2*margin, height-gap+2*margin
	return fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" width="%g" height="%g" viewBox="-%d -%d %g %g" role="img">`+
		"\n<title>%s</title>\n<desc>%s</desc>\n<style>\n%s</style>\n"+
		`<rect x="-%d" y="-%d" width="%g" height="%g" fill="%s"/>`+"\n%s</svg>\n",
		width, height, margin, margin, width, height, esc(title), esc(strings.Join(sentences, ". ")), loneStyle(),
		margin, margin, width, height, colors()["paper"], body.String())
}

var (
	spoken = regexp.MustCompile(`aria-label="([^"]*)"`)
	moved  = regexp.MustCompile(`<rect class="now[^>]*/>\n`)
	over   = regexp.MustCompile(`<text class="(?:size|who|cycle|name|about)"`)
	rule   = regexp.MustCompile(`(?m)^(.+?) \{ (.*?) \}\n`)
)

// withoutCursor leaves out the sounding place, which only the player shows.
func withoutCursor(svg string) string { return moved.ReplaceAllString(svg, "") }

// haloed draws each text that lies over lines twice, first the paper around it.
func haloed(svg string) string {
	var b strings.Builder
	for line := range strings.Lines(svg) {
		if over.MatchString(line) {
			b.WriteString(strings.Replace(line, `" x=`, ` halo" x=`, 1))
		}
		b.WriteString(line)
	}
	return b.String()
}

// colors are the figure's colors in the style sheet, by the names of its variables.
func colors() map[string]string {
	all := map[string]string{}
	for _, m := range regexp.MustCompile(`--(\w+): (#\w+);`).FindAllStringSubmatch(asset("figure.css"), -1) {
		all[m[1]] = m[2]
	}
	return all
}

// notMusic keeps a rule off the notes; no lone figure has any.
const notMusic = ":where(:not(.music))"

// loneStyle is the style sheet with every variable replaced by its color, and
// each rule in a layer's ink by one for each ink.
func loneStyle() string {
	color := colors()
	resolved := func(declaration, ink string) string {
		declaration = strings.NewReplacer("var(--ink, var(--text))", ink, "var(--ink)", ink).Replace(declaration)
		for name, c := range color {
			declaration = strings.ReplaceAll(declaration, "var(--"+name+")", c)
		}
		return declaration
	}
	var b strings.Builder
	for _, m := range rule.FindAllStringSubmatch(asset("figure.css"), -1) {
		selector, declared := strings.Replace(m[1], notMusic, "", 1), m[2]
		if strings.Contains(declared, "--ink:") || strings.HasPrefix(declared, "--") || strings.Contains(selector, ".now") {
			continue
		}
		if strings.Contains(declared, "paint-order") {
			selector, declared = "svg .halo", strings.Replace(declared, "paint-order: stroke; ", "", 1)
		}
		fmt.Fprintf(&b, "%s { %s }\n", selector, resolved(declared, color["text"]))
		if !strings.Contains(declared, "var(--ink") {
			continue
		}
		for i, ink := range []string{"a", "b", "c"} {
			for part := range strings.SplitSeq(declared, "; ") {
				if strings.Contains(part, "var(--ink") {
					fmt.Fprintf(&b, "%s.ink%d { %s; }\n", selector, i, resolved(strings.TrimSuffix(part, ";"), color[ink]))
				}
			}
		}
	}
	return b.String()
}
