package sample

import (
	"slices"
	"strings"
)

// body writes the layers and, before them, who realigns.
func (w *writer) body() {
	pool := slices.Clone(bare)
	if !w.often(4, "bare only") {
		pool = slices.Clone(pitched)
	}
	if w.has(Percussion) {
		pool = append(pool, drums...)
	}
	n := w.number("layers", 1, 4)
	switch {
	case w.home:
		n = 2
	case w.until > 0:
		n = max(n, 3)
	}
	for i := range n {
		k := w.number("instrument", 0, len(pool)-1)
		w.layers = append(w.layers, layer{name: pool[k].layer, on: pool[k], core: w.until > 0 && i < 2})
		pool = slices.Delete(pool, k, k+1)
	}
	head := w.String()
	w.Reset() // layers are made first, for the realigning set depends on them
	for i := range w.layers {
		w.layer(&w.layers[i])
	}
	layers := w.String()
	w.Reset()
	w.WriteString(head)
	w.set()
	w.line("layers:")
	w.WriteString(layers)
}

// set writes `realign:` where the default could be anything.
func (w *writer) set() {
	var names []string
	for _, l := range w.layers {
		if l.core || w.until == 0 && l.runs {
			names = append(names, l.name)
		}
	}
	switch {
	case w.until > 0:
	case len(names) == 0 || !w.often(3, "realign"):
		return
	}
	if w.often(4, "with the barline") {
		names = append(names, "barline")
	}
	w.line("realign: [%s]", strings.Join(names, ", "))
}

func (w *writer) layer(l *layer) {
	w.line("  - name: %s", l.name)
	l.runs = true
	if l.on.key != "" {
		w.line("    instrument: %s", l.on.key)
	}
	if l.on.player != "" && !w.often(4, "alone") {
		w.line("    player: %s", l.on.player)
	}
	if w.has(Ornaments) {
		w.ornaments(l)
	}
	if l.on.tab != "" && !w.often(4, "no tablature") {
		w.line("    %s", strings.ReplaceAll(l.on.tab, ", ", "\n    "))
	}
	plain := w.layerPulse(l)
	if w.has(Lines) && !l.core && w.often(4, "line") {
		l.runs = false
		w.freeLine(l)
		return
	}
	w.rhythm(l)
	w.series(l)
	if l.core {
		return
	}
	if w.has(Cuts) && w.often(3, "cut") {
		loops := []string{"cut every 2 bars", "cut every 3 bars", "cut every bar"}
		if plain {
			loops = append(loops, "restart at realignment", "restart at realignment", "restart at realignment")
		}
		loop := w.one("loop", loops)
		l.runs = loop != "restart at realignment"
		w.line("    loop: %s", loop)
	}
	if w.has(Entries) {
		w.entry(l, plain)
	}
	if w.has(Processes) && (l.groups != nil || l.box) && !w.often(6, "no process") {
		w.process(l)
	}
	if w.has(Exceptions) && w.often(2, "exception") {
		w.except(l)
	}
}

func (w *writer) ornaments(l *layer) {
	if l.on.clefs != nil && w.often(5, "clef") {
		w.line("    clef: %s", w.one("clef", l.on.clefs))
	}
	if w.often(4, "short") {
		shorts := []string{"Kp.", `"L & R"`, "X", "Qu."} // each for one layer
		w.line("    short: %s", shorts[w.shorts])
		w.shorts++
	}
	if w.often(3, "dynamic") {
		w.line("    dynamic: %s", w.one("dynamic", []string{"pp", "p", "mf", "f", "ff"}))
	}
	if l.on.clefs != nil && w.often(3, "slurs") {
		slurs := []string{"2+1", "3", "1+2", "none"}
		if !w.has(Lines) { // which have neither groups nor cycles
			slurs = append(slurs, "group", "cycle")
		}
		w.line("    slurs: %s", w.one("slurs", slurs))
		w.line("    tails: tied")
	} else if w.often(4, "tails") {
		l.cut = true
		w.line("    tails: %s", w.one("tails", []string{"tied", "cut"}))
	}
	if w.often(4, "pan") {
		w.line("    pan: %d", w.number("pan", -90, 90))
	}
	if w.has(Ornaments) && w.often(6, "written") {
		w.line("    written: %s", w.one("way", []string{"rhythm", "slashes", "repeats"}))
	}
}

// layerPulse gives some layers a pulse of their own and reports whether the
// layer's pulse is plain.
func (w *writer) layerPulse(l *layer) bool {
	switch {
	case l.core && !w.plain:
		w.line("    pulse: 1/8")
		return true
	case l.core:
		return true
	case w.has(Tuplets) && w.often(2, "tuplet"):
		l.tuplet = true
		w.line("    pulse: %s", w.one("ratio", ratios))
		return false
	case w.often(4, "own pulse"):
		w.line("    pulse: %s", w.one("value", []string{"1/16", "1/8", "1/4", "3/16", "dotted eighth"}))
		return true
	}
	l.tuplet = !w.plain
	return w.plain
}

// sizes makes the groups of a cycle of at most twelve pulses.
func (w *writer) sizes() []int {
	var sizes []int
	for sum := 0; sum < 10 && len(sizes) < 5; {
		n := w.number("size", 1, 4)
		n = min(n, 12-sum)
		sizes = append(sizes, n)
		sum += n
		if len(sizes) > 1 && w.often(3, "enough") {
			break
		}
	}
	return sizes
}

// rhythm writes groups, a list of them, groups with rests or repeats, or a box.
func (w *writer) rhythm(l *layer) {
	if w.has(Boxes) && w.often(3, "box") {
		w.box()
		l.box = true
		w.strikes(false)
		return
	}
	sizes := w.sizes()
	switch kind := w.number("groups", 1, 10); {
	case kind == 1 && !l.core:
		l.groups = sizes
		w.line("    groups: [%s, %s, %s]", groups(sizes), groups(w.sizes()), groups(sizes))
	case kind == 2:
		w.line("    groups: %s + rest %d", groups(sizes[:min(2, len(sizes))]), w.number("rest", 1, 3))
	case kind == 3:
		w.line("    groups: (%s)x2", groups(sizes[:2]))
	case kind == 4:
		w.line("    groups: %dx%d", sizes[0], w.number("times", 1, 3))
	default:
		l.groups = sizes
		w.line("    groups: %s", groups(sizes))
	}
	w.strikes(true)
	if w.has(Figures) && w.often(2, "figures") {
		figures := []string{"{2: x., 3: x.x}", "{3: x=x}", "{2: xxx., 3: .xx}", "{4: x.xx, 1: x}", "{3: x=xx..}"}
		w.line("    figures: %s", w.one("figures", figures))
	}
	switch {
	case !w.has(Ornaments):
	case w.often(4, "syllables"):
		w.line("    syllables: {2: ta ka, 3: ta ki ta}")
	case w.often(6, "lyrics"): // with the ornaments and without syllables: one piece in twenty
		w.line("    lyrics: %s", w.one("verse", []string{"Ha-rken now =", "[Row = row, Stea- = dy row Lock-kee-per]"}))
	}
}

// box writes a cycle sign by sign.
func (w *writer) box() {
	signs := []byte("x")
	for range w.number("signs", 2, 11) {
		next := w.one("sign", []string{"x", "=", "."})[0]
		if last := signs[len(signs)-1]; next == '=' && last == '.' {
			next = '.'
		}
		signs = append(signs, next)
	}
	if w.often(6, "silent start") {
		signs[0] = '.'
		if signs[1] == '=' {
			signs[1] = 'x'
		}
		if !slices.Contains(signs, 'x') {
			signs[len(signs)-1] = 'x'
		}
		for i := 1; i < len(signs); i++ {
			if signs[i] == '=' && signs[i-1] == '.' {
				signs[i] = '.'
			}
		}
	}
	w.line("    box: %s", signs)
	if n := len(signs); w.often(2, "groups of the box") && n > 2 {
		w.line("    groups: %d+%d", n/2, n-n/2)
	}
}
