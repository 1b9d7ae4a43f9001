// Package sheet is the beamed measure model: what is written in each bar of each
// part, signs, ties, beams, tuplets and marks, and the law it keeps (Check).
// Package layout makes sheets, exporters spell them.
//
//   - Law, checked by Check on every sheet the tests lay: each voice fills each bar;
//     value × ratio = length; ties touch and join the same heads; beams are well formed;
//     a tuplet is closed in the bar and full; marks stand at events. Sounds undoes the
//     ties; tests compare it with score.Section.Attacks.
package sheet
