package report

import "tieover/score/analysis/timeline"

// glossary explains the report's words.
func glossary(p *paper) {
	p.heading("Glossary")
	for _, e := range []string{
		"aksak: meters of 2s and 3s; authentic when their sum is prime, quasi when it is odd but not prime, pseudo when it is even (Arom 2004).",
		"attack: a sounded event.",
		"balance: 1 when the attacks, as weights on a circle, keep it level; 0 when all stand at one place (Milne, Bulger, Herff 2018).",
		"composite: the rhythm of all attacks of several layers heard as one.",
		"cycle: one pass through a layer's groups.",
		"deep: each distance between two attacks occurs a different number of times.",
		"DFT of order k: how near k attacks come to dividing the cycle evenly; 1 is even.",
		"drift: how a layer's heads move against the barline or another layer. Place is how far into the bar or cycle a head falls, step how much that changed since the last one (early is negative), total all steps together.",
		"E(k,n), Euclidean: k attacks spread as evenly as n pulses allow, made by repeated grouping (Toussaint 2005). A grouping that is a rotation of it is Euclidean.",
		"evenness: how near the attacks, in order, come to an even division; 1 is even (Milne).",
		"group: a run of pulses felt as one.",
		"head: the beginning of a layer's first group.",
		"Keith: attacks that do not start on a multiple of their own length, rounded down to a power of two.",
		"lcm: the least common multiple of the cycles.",
		"LHL: syncopation by Longuet-Higgins and Lee (1984): silences on stronger places than the note before them. 0 is none. Nothing is carried round the cycle.",
		"necklace: all rotations of a grouping taken as one, written as the least of them.",
		"nPVI: how much neighboring durations differ, 0 for equal ones; not wrapped round the cycle (Toussaint 2013).",
		"off-beatness: attacks at places that share no factor with the cycle's length.",
		"oddity: no two attacks divide the cycle in halves.",
		"pulse: the note value that group sizes count.",
		"realignment: a moment at which the heads of all layers of the set coincide.",
		"WNBD: weighted distance from each note to the nearest beat (Gómez and others 2005). A note that ends exactly on the second next beat weighs 1.",
	} {
		p.item(e)
	}
}

// sources names the sources of the table of patterns in full, in its order.
func sources(p *paper) {
	p.heading("Sources of the named patterns")
	seen := map[timeline.Source]bool{}
	for _, pattern := range timeline.All() {
		if s := pattern.Source; !seen[s] {
			seen[s] = true
			p.item(s.Short + ": " + s.Full + ".")
		}
	}
}
