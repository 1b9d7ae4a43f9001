package page

import (
	"html/template"
	"io"
)

// Tap is what the page on which parts are tapped must know.
type Tap struct {
	Token string // sent back with all that the page sends
	Dir   string // where is saved, for people
}

// WriteTap writes the page on which parts are tapped to a recording or a click.
func WriteTap(w io.Writer, t Tap) error {
	return parsed("tap.html").Execute(w, map[string]any{
		"Style": template.CSS(asset("page.css") + asset("tap.css")), "Token": t.Token, "Dir": t.Dir,
		"Script": template.JS(joined("player/media", "tap/time", "tap/parts", "tap/draw", "tap/calibrate", "tap/play", "tap/send", "tap/controls")),
	})
}
