package report

import "tieover/score/analysis/timeline"

// glossary explains the report's words, each so that it can be read alone.
func glossary(p *paper) {
	p.heading("Glossary")
	for _, e := range []string{
		"aksak: meters put together from 2s and 3s. They are called authentic when the sum is a prime number, quasi when it is odd but not prime, and pseudo when it is even (Arom 2004).",
		"at bar 5 beat 2½: halfway through beat 2. At bar 5 beat 2 +1/12: a twelfth of a whole note after beat 2.",
		"attack: the beginning of a sounded event. A chord is one attack, a tied note too.",
		"balance: imagine each attack as an equal weight on the rim of a wheel that turns once a cycle. 1 means that the wheel is level, 0 that all weights hang at one place (Milne, Bulger and Herff 2018).",
		"bracelet: a necklace that may be turned over as well, that is, all rotations of a grouping and of its mirror image taken as one. It is written as the one that comes first in numerical order.",
		"composite: the rhythm of all attacks of all layers, heard as one line. Layers that strike together count once.",
		"cycle: one pass through a layer's groups. A cycle that stops before its last pulse is cut.",
		"deep: among all pairs of attacks, each distance that occurs does so a different number of times. Distances are taken the shorter way round the cycle.",
		"DFT of order k: how near k attacks come to dividing the cycle into k equal parts; 1 means that they do.",
		"drift: how a layer moves against the barline or against another layer's cycle. The place is how far into the bar or cycle its head falls; the step is how much that changed since the head before, later positive and earlier negative; the total adds up all steps. Exactly half a bar or cycle counts as later.",
		"Euclidean, E(k,n): k attacks spread over n pulses as evenly as whole pulses allow. E(3,8) is 3+3+2. A grouping that is a rotation of it is called Euclidean too. Written out here as repeated grouping makes it (Toussaint 2005).",
		"Euclidean string: a list that turns into a rotation of itself when its first number grows by 1 and its last shrinks by 1 (Ellis, Ruskey, Sawada and Simpson 2003).",
		"evenness: how near the attacks, taken in order, come to an even division of the cycle; 1 is even (Milne).",
		"felt downbeat: where a listener may hear the loop begin, if a rotation of it is more familiar than the loop as written. The bars are then counted from there, so everything else seems to move.",
		"group: a run of pulses felt as one, such as each 3 and 2 in 3+2+2.",
		"head: the beginning of a layer's first group, as the spec lists them. It is where the loop begins; a rotation or a shift moves it inside the cycle. A head on a rest is silent but still counts.",
		"Keith: the number of attacks that do not begin on a multiple of their own length, that length rounded down to a power of two.",
		"lcm: least common multiple. Loops of 10 and 12 pulses begin together every lcm(10, 12) = 60 pulses.",
		"LHL: syncopation after Longuet-Higgins and Lee (1984). Wherever the meter has a stronger place that is silent or held after a note on a weaker one, the difference in strength is added. 0 means none. Nothing is carried over from the cycle's end to its beginning.",
		"long groups first: the rule of thumb that a listener begins the loop with its long groups. Of all rotations it is the one whose first group is the longest, then the second, and so on.",
		"necklace: a grouping without a beginning, that is, all its rotations taken as one. It is written as the rotation that comes first in numerical order.",
		"nPVI: how much each duration differs from its neighbor, on the average; 0 means that all are equal. The last is not compared with the first (Toussaint 2013).",
		"off the beat: on no beat of the written meter. In meters such as 6/8 and 12/8 the beat is dotted; in an additive meter such as 3+2+2/8 each summand is one.",
		"off-beatness: the number of attacks at pulses whose number, counted from 0, shares no divisor with the length of the cycle. No regular beat that divides the cycle touches these.",
		"pivot: a value that is played already and becomes the beat of another tempo.",
		"pulse: the note value that the sizes of groups count.",
		"realignment: a moment at which the heads of all layers of the realigning set fall together. Realignment 0 is the start.",
		"realigning set: the layers whose heads have to meet. Unless the spec names them, those that play from the start and are never cut; a set of one meets the barline.",
		"rhythmic oddity: no two attacks lie exactly half a cycle apart. With an odd number of pulses that is always so.",
		"WNBD: weighted distance from each note to the nearest beat, the mean over all notes; 0 means that all are on the beat (Gómez and others 2005). A note that ends exactly on the second next beat weighs 1.",
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
